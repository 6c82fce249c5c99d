"""Commands as they are typed in the folder of an invented plant, of which each answer is kept."""

from __future__ import annotations

SAID = {
    "check": """
        hts check good.hts
        hts check wrong.hts
        hts check wrong.hts --width 60
        hts check -q good.hts
        hts check -q wrong.hts
        hts check --statistics .
        hts check wrong.hts --format line
        hts check wrong.hts --format github
        hts check wrong.hts --format json
        hts check wrong.hts --format sarif
        hts check wrong.hts --format junit
        hts check wrong.hts --format gitlab
        hts check good.hts --format json
        hts check good.hts --format junit
        hts check damaged.hts
        hts check damaged.hts --format line
        hts check empty
        hts check nowhere.hts
        hts check good.hts nowhere.hts
        hts check latin.hts
        hts check - < wrong.hts
        hts check - --stdin-path sub/that.hts < wrong.hts
        hts check good.hts --stdin-path x.hts
        hts check good.hts -
        hts check wrong.hts --color always
        hts check wrong.hts --report json=out.json --report line=out.txt
        hts check wrong.hts --report yaml=out.yaml
        hts check wrong.hts --report json
        hts check wrong.hts --report json=nowhere/out.json
        hts check wrong.hts --report json=out.json --report line=out.json
        hts check good.hts --today 2030-01-01
        hts check good.hts --today tomorrow
        hts check good.hts --width 59
        hts check good.hts --jobs 0
        hts check good.hts --config nowhere.toml
        hts check good.hts --config bad.toml
        hts check good.hts --config odd.toml
        hts check wrong.hts --config quiet.toml
        hts check wrong.hts --new-baseline
        hts check wrong.hts --baseline base.json --new-baseline
        hts check wrong.hts --baseline base.json
        hts check good.hts --baseline base.json
        hts check wrong.hts --baseline base.json --new-baseline
        hts check good.hts --baseline base.json --write-baseline
        hts check wrong.hts --baseline nowhere.json
        hts check wrong.hts --baseline bad.toml
        hts check
        hts check --formt json good.hts
        hts check --format yaml good.hts
    """,
    "fix": """
        hts check slip.hts --format line
        hts check slip.hts --offer LIST
        hts check good.hts --offer list
        hts check slip.hts --offer W999
        hts check slip.hts --offer W106@W12/pipe
        hts check slip.hts --offer W106@W12/pipe --fix
        hts check slip.hts --offer list
        hts check nowhere.hts --offer list
        hts check latin.hts --offer list
        hts check . --offer list
        hts check good.hts slip.hts --offer list
        hts check - --fix < slip.hts
        hts check messy.hts --fix
        hts check messy.hts -q
        hts check . --fix --format line
        hts check damaged.hts --fix --format line
        hts check slip.hts --fix --config odd.toml
    """,
    "options together": """
        hts check good.hts -q --format json
        hts check good.hts --statistics --format line
        hts check good.hts --shard 1/2 --merge-reports
        hts check - --shard 1/2
        hts check good.hts wrong.hts slip.hts --shard 1/2 --format line
        hts check good.hts wrong.hts slip.hts --shard 2/2 --format line
        hts check good.hts --shard 3/2
        hts check good.hts --shard 0/2
        hts check good.hts --on tcp://nowhere --jobs 2
        hts check good.hts --write-baseline
        hts check good.hts --shard 1/2 --baseline base.json
        hts check nowhere.json --merge-reports
        hts check bad.toml --merge-reports
        hts check good.hts --with-users
        hts check good.hts --allow-pack tern
        hts check good.hts --no-packs
        hts books --format markdown
        hts books asme-b31.3 asme-b31.1
        hts books asme-b31.3-2016 asme-b31.3-2018 asme-b31.3-2022
        hts books asme-b31.3-2016 asme-b31.3-2018 --format json
        hts books asme-b31.3 --edition 2018 --for good.hts W12
        hts books --for good.hts W12
        hts books --for good.hts W12/nothing
        hts books asme-b31.3 --for good.hts W12/stress-relief --format json
        hts books --for bad.toml W12
        hts diff good.hts wrong.hts list.hts messy.hts
        hts diff HEAD:good.hts
        hts diff HEAD:nowhere.hts good.hts
        hts diff NOWHERE:good.hts good.hts
        hts diff good.hts latin.hts
        hts diff good.hts wrong.hts --approvals nowhere/ok.yaml --approve "N. N."
        hts diff HEAD --approvals all.yaml --approve "N. N."
        hts diff HEAD --approvals all.yaml
        hts diff HEAD good.hts
        hts diff HEAD empty
        hts diff good.hts good.hts 0000000 100644 wrong.hts 1111111 100644
        hts diff welds.csv welds.csv 0000000 100644 welds.csv 1111111 100644
        hts diff good.hts
        hts compile good.hts -o out --joint W12
        hts compile list.hts -o out --joint W101 --joint W102
        hts compile good.hts -o out --by-joint
        hts compile good.hts -o out --svg
        hts compile open.hts -o out
        hts weld-list list.hts --format csv -o nowhere/list.csv
        hts language --examples good.hts
        hts language procedure
        hts fingerprint nowhere.hts
    """,
    "fmt": """
        hts fmt --check good.hts messy.hts
        hts fmt --diff messy.hts
        hts fmt --diff --color always messy.hts
        hts fmt - < messy.hts
        hts fmt messy.hts
        hts fmt messy.hts
        hts fmt --check damaged.hts
        hts fmt - < damaged.hts
        hts fmt - --stdin-path x.hts < damaged.hts
        hts fmt empty
        hts fmt nowhere.hts
        hts fmt latin.hts
        hts fmt --check .
        hts fmt --check --diff .
        hts fmt good.hts -
    """,
    "compile": """
        hts compile good.hts -o out
        hts compile good.hts -o out
        hts compile changed.hts -o out
        hts compile wrong.hts -o out2
        hts compile damaged.hts -o out2
        hts compile nowhere.hts -o out2
        hts compile good.hts
        hts compile good.hts -o good.hts
        hts compile good.hts -o out --joint W99
        hts compile good.hts -o out --part pipe
        hts compile good.hts -o out --only-changed
        hts compile good.hts -o out --label rows=4
        hts compile good.hts -o out --labels --label rows
        hts compile good.hts -o out --labels --label lines=3
        hts compile good.hts -o out --labels --label rows=x
        hts compile good.hts -o out --since nowhere
        hts compile good.hts -o out --sheet A3
    """,
    "questions": """
        hts why good.hts
        hts why good.hts W12
        hts why good.hts W12/stress-relief
        hts why good.hts W12/hold-time
        hts why good.hts W12/hold-tim
        hts why good.hts W13
        hts why good.hts W12/hold-time --format json
        hts why wrong.hts
        hts why damaged.hts
        hts why nowhere.hts
        hts fingerprint good.hts
        hts fingerprint good.hts --format json
        hts fingerprint good.hts --expect 0000-0000-0000
        hts fingerprint good.hts --expect 0000-0000-0000 --format json
        hts fingerprint good.hts --expect 00
        hts fingerprint good.hts --expect xyzx-0000-0000
        hts fingerprint damaged.hts
        hts config
        hts config good.hts --format json
        hts config --config quiet.toml
        hts config --config odd.toml
        hts config nowhere
        hts rules K101
        hts rules X999
        hts rules --family bands
        hts rules --family nothing
        hts rules --severity advice
        hts rules --severity grave
        hts rules --family bands --severity error --format json
        hts language hold
        hts language units
        hts language start of control
        hts language nothing
        hts language hol
        hts language --examples copy
        hts language --examples copy
        hts books
        hts books asme-b31.3 --edition 1900
        hts books nothing
        hts books asme-b31
        hts books asme-b31.3 --units us
        hts books asme-b31.3 asme-b31.1 --format markdown
        hts books asme-b31.3 asme-viii-1 --for good.hts W12
        hts books asme-b31.3 asme-viii-1 --for good.hts W12 --format markdown
        hts books asme-b31.3 --for good.hts W13
        hts books asme-b31.3 --for damaged.hts W12
        hts books --new law.yaml
        hts books law.yaml
        hts books --new law.yaml
        hts books bad.toml
        hts books local-heating --format json
        hts books asme-b31.3-2016 asme-b31.3-2018
    """,
    "diff": """
        hts diff good.hts changed.hts
        hts diff good.hts good.hts
        hts diff good.hts messy.hts
        hts diff good.hts messy.hts --representation
        hts diff good.hts wrong.hts
        hts diff good.hts wrong.hts --format json
        hts diff good.hts wrong.hts --format markdown
        hts diff good.hts wrong.hts --fail-on never
        hts diff good.hts changed.hts --fail-on note
        hts diff good.hts wrong.hts --color always
        hts diff good.hts wrong.hts --approve "N. N."
        hts diff good.hts wrong.hts --approvals ok.yaml --approve "N. N."
        hts diff good.hts wrong.hts --approvals ok.yaml
        hts diff good.hts changed.hts --approvals bad.toml
        hts diff good.hts damaged.hts
        hts diff good.hts nowhere.hts
        hts diff nowhere.hts none.hts
        hts diff /dev/null good.hts
        hts diff good.hts /dev/null
        hts diff HEAD
        hts diff HEAD:good.hts wrong.hts
        hts diff good.hts
        hts diff nothing..HEAD
        hts diff HEAD --format json
        hts diff HEAD --format markdown
        hts diff
    """,
    "welds": """
        hts weld-list list.hts
        hts weld-list list.hts --format csv
        hts weld-list list.hts --format xlsx
        hts weld-list list.hts -o list.csv
        hts weld-list list.hts --format csv -o list.csv
        hts weld-list list.hts --format csv -o list.csv
        hts weld-list good.hts
        hts weld-list damaged.hts
        hts new --weld-list welds.csv
        hts new --weld-list nowhere.csv
        hts new --weld-list good.hts
        hts new --weld-list welds.csv block.hts
        hts plan good.hts
        hts plan good.hts --crews 1 --from "2026-12-01 06:00" --set-up 2h --shift 8h
        hts plan good.hts --from tomorrow
        hts plan good.hts --ready ready.csv
        hts plan good.hts --ready ready.csv --from "2026-12-01 06:00"
        hts plan good.hts --ready welds.csv --from "2026-12-01 06:00"
        hts plan good.hts --set-up 2
        hts plan good.hts --shift 0h
        hts plan good.hts -o planned
        hts plan good.hts -o planned
        hts plan good.hts -o good.hts
        hts plan list.hts
        hts plan damaged.hts
    """,
    "new": """
        hts new - --date 2026-11-20
        hts new - --kind branch --run 16 --run-schedule 80 --date 2026-11-20
        hts new - --kind nozzle --shell "2400 mm" --shell-wall "40 mm" --date 2026-11-20
        hts new - --kind socket --nps 2 --schedule 160 --date 2026-11-20
        hts new - --material 2.25Cr --nps "1 1/2" --schedule XS --units US --bake --date 2026-11-20
        hts new - --method induction --book asme-b31.1 --axis vertical --joint W1,W2
        hts new - --nps 13
        hts new - --nps 12 --schedule 41
        hts new - --run 16
        hts new - --kind branch --run 2 --nps 12
        hts new - --kind nozzle --shell 2400
        hts new - --joint "W 1"
        hts new - --date 20.11.2026
        hts new - --kind elbow
        hts new made.hts --number HT-7 --title "Tern Island" --date 2026-11-20
        hts check made.hts
        hts new made.hts
        hts new nowhere/made.hts
        hts new
    """,
    "record": """
        hts record simulate good.hts -o log.csv --seed 1 --every 5min
        hts record simulate good.hts -o log.csv --seed 1
        hts record simulate good.hts -o - --seed 1 --every 2h --start none
        hts record simulate good.hts -o fault.csv --every 5min --fault open-circuit=T1
        hts record simulate good.hts -o x.csv --fault nothing
        hts record simulate good.hts -o x.csv --fault open-circuit=T99
        hts record simulate good.hts -o x.csv --departure nothing
        hts record simulate good.hts -o x.csv --every 0s
        hts record simulate good.hts -o x.csv --start noon
        hts record simulate good.hts -o x.csv --joint W13
        hts record simulate good.hts -o x.csv --cycle bake
        hts record simulate damaged.hts -o x.csv
        hts record simulate good.hts -o x.csv --kinds
        hts record check good.hts log.csv
        hts record check good.hts fault.csv
        hts record check good.hts log.csv --joint W13
        hts record check good.hts nowhere.csv
        hts record check good.hts welds.csv
        hts record check good.hts log.csv --pdf
        hts record check good.hts log.csv --columns bad.toml
        hts record check good.hts log.csv --events bad.toml
        hts record check good.hts log.csv --shard 1/2
        hts record check good.hts log.csv --zone Nowhere/None
        hts record check good.hts log.csv --today tomorrow
        hts compile good.hts -o out
        hts record check good.hts log.csv --sheet-of-run out/job.json
        hts record check good.hts log.csv --sheet-of-run bad.toml
        hts record check good.hts log.csv --results damaged.hts
        hts record check damaged.hts log.csv
        hts record check good.hts --archive .
        hts record check good.hts --archive nowhere
        hts record check good.hts log.csv --archive .
        hts record check good.hts --archive . --shard 3/2
        hts record check good.hts --archive . --shard x
        hts record check good.hts
        hts record watch good.hts log.csv --once
        hts record watch good.hts log.csv --once --format json
        hts record watch good.hts fault.csv --once
        hts record watch good.hts nowhere.csv --once
        hts record watch good.hts log.csv --once --every 0s
        hts record watch wrong.hts log.csv --once
    """,
}
