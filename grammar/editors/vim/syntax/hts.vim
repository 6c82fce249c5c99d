" Made from the vocabulary of hts by `python -m hts.generate`; do not edit.
if exists('b:current_syntax')
  finish
endif
syntax case match
syntax match htsChoice /\v<A[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<B[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<C[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<D[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<E[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<J[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<K[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<N[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<P[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<R[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<T[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<V[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<W[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Al[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<As[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Co[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Cr[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Cu[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Mn[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Mo[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Nb[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Ni[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PA[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PB[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PC[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PD[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PE[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PF[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PG[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PH[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PJ[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<PK[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<SI[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Sb[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Si[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Sn[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<Ti[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<US[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<up[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-1[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-2[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-3[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-4[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-5[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-6[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-7[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-8[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-9[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<air[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<all[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<cap[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<gas[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<oil[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<pad[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<run[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<tab[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<tee[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<top[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-10[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-11[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<S\-3A[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<bake[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<band[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<bend[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<both[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<coil[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<date[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<degC[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<degF[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<down[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<east[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<flat[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<flow[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<free[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<hold[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<left[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<like[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<line[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<none[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<open[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<pipe[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<seal[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<seam[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<shop[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<weld[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<west[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<above[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<amine[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<argon[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<bands[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<below[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<cable[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<comma[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<cycle[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<elbow[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<field[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<fixed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<hours[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<joint[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<lined[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<north[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<other[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<owner[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<plate[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<point[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<power[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<right[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<solid[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<south[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<spool[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<steam[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<total[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<valve[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<water[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<A[ \t]+to[ \t]+B[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<B[ \t]+to[ \t]+A[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<H\-L045[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<J\-L045[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<around[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<banded[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<bolted[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<branch[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<burner[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<client[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<closed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<colour[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<copper[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<design[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<exempt[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<filled[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<fillet[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<finger[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<flange[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<guided[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<inside[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<lethal[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<locked[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<nearby[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<nozzle[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<number[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<on[ \t]+pad[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<on[ \t]+run[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<packed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<peened[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<permit[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<purged[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<repair[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<side[ \t]+A[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<side[ \t]+B[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<single[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<socket[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<vacuum[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<valves[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<welder[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<adds[ \t]+up[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<ambient[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<ammonia[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<bracing[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<casting[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<caustic[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<contact[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<drawing[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<each[ \t]+of[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<edition[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<forging[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<furnace[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<minutes[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<nominal[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<outside[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<plugged[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<preheat[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<reducer[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<removed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<replace[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<service[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<special[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<support[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<upscale[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<weather[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<welding[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<accepted[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<annealed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<approved[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<channels[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<draughty[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<gas[ \t]+test[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<hydrogen[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<in[ \t]+total[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<inclined[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<keep[ \t]+hot[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<material[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<measured[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<multiple[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<negative[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<nitrogen[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<operator[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<polarity[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<positive[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<rejected[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<released[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<required[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<sheathed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<standard[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<stranded[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<supports[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<unbolted[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<upstream[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<vertical[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<ASTM[ \t]+E230[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<SI[ \t]+and[ \t]+US[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<US[ \t]+and[ \t]+SI[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<as[ \t]+rolled[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<burnt[ \t]+gas[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<carbonate[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<documents[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<downscale[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<each[ \t]+side[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<enclosure[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<from[ \t]+bake[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<full[ \t]+band[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<generator[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<induction[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<inspector[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<isolation[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<long[ \t]+seam[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<on[ \t]+branch[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<power[ \t]+off[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<pyrometer[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<qualified[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<ramp[ \t]+down[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<same[ \t]+bore[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<semicolon[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<soak[ \t]+edge[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<still[ \t]+air[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<tempering[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<temporary[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<with[ \t]+flow[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<attachment[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<base[ \t]+metal[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<downstream[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<feed[ \t]+water[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<fire[ \t]+watch[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<flow[ \t]+arrow[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<for[ \t]+review[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<from[ \t]+above[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<from[ \t]+below[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<from[ \t]+north[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<girth[ \t]+butt[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<horizontal[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<insulation[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<local[ \t]+spot[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<mechanical[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<moving[ \t]+air[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<normalized[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<resistance[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<restrained[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<same[ \t]+alloy[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<superseded[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<test[ \t]+plate[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<to[ \t]+be[ \t]+made[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<tube[ \t]+sheet[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<weld[ \t]+stamp[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<whole[ \t]+part[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<IEC[ \t]+60584\-3[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<branch[ \t]+weld[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<calculation[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<calibration[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<channel[ \t]+map[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<chart[ \t]+speed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<cleanliness[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<controlling[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<ends[ \t]+closed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<filed[ \t]+clean[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<from[ \t]+branch[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<from[ \t]+side[ \t]+A[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<from[ \t]+side[ \t]+B[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<glass[ \t]+braid[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heat[ \t]+number[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heated[ \t]+edge[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heated[ \t]+face[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<hydrocarbon[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<nearby[ \t]+item[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<normalizing[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<transformer[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<vessel[ \t]+head[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<water[ \t]+spray[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<wind[ \t]+screen[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<against[ \t]+flow[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<all[ \t]+in[ \t]+range[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<cable[ \t]+rating[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<flexible[ \t]+pad[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<for[ \t]+approval[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<from[ \t]+preheat[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<ground[ \t]+clean[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<made[ \t]+already[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<not[ \t]+approved[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<recorder[ \t]+set[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<same[ \t]+outside[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<starts[ \t]+again[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<stop[ \t]+and[ \t]+ask[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<thermocouple[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<vessel[ \t]+shell[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<after[ \t]+cooling[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<branch[ \t]+to[ \t]+run[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<ceramic[ \t]+fibre[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<contact[ \t]+probe[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<gradient[ \t]+edge[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heavy[ \t]+section[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<one[ \t]+side[ \t]+only[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<run[ \t]+to[ \t]+branch[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<size[ \t]+and[ \t]+wall[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<stress[ \t]+relief[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<along[ \t]+the[ \t]+coil[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<already[ \t]+heated[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<branch[ \t]+fitting[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<code[ \t]+exemption[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<end[ \t]+of[ \t]+welding[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<furnace[ \t]+survey[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<in[ \t]+preparation[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<one\-sided[ \t]+95[ \t]+\%[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<socket[ \t]+fitting[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<thermal[ \t]+stress[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<thin\-wall[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<document[ \t]+number[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<drained[ \t]+and[ \t]+dry[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<for[ \t]+information[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<recorder[ \t]+serial[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<repeat[ \t]+the[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<stop[ \t]+and[ \t]+repair[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<vitreous[ \t]+silica[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<after[ \t]+excavation[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<ask[ \t]+the[ \t]+engineer[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<closed[ \t]+and[ \t]+still[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<drawing[ \t]+revision[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<flanges[ \t]+unbolted[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<for[ \t]+construction[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heated[ \t]+by[ \t]+itself[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<in[ \t]+several[ \t]+heats[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<induction[ \t]+supply[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<over[ \t]+the[ \t]+blanket[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<spares[ \t]+connected[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<stopped[ \t]+by[ \t]+plugs[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<thermocouple[ \t]+map[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<through[ \t]+the[ \t]+bore[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<unsupported[ \t]+span[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<before[ \t]+excavation[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<closed[ \t]+and[ \t]+vented[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heater[ \t]+continuity[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<power[ \t]+and[ \t]+standby[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<restart[ \t]+the[ \t]+cycle[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<surface[ \t]+condition[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<temperature[ \t]+scale[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<under[ \t]+the[ \t]+blanket[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<welding[ \t]+procedure[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<barriers[ \t]+and[ \t]+signs[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<beside[ \t]+the[ \t]+blanket[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<drained[ \t]+and[ \t]+vented[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heat\-affected[ \t]+zone[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<highest[ \t]+and[ \t]+lowest[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<junctions[ \t]+shielded[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<solution[ \t]+treatment[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<square[ \t]+to[ \t]+the[ \t]+coil[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<while[ \t]+all[ \t]+in[ \t]+range[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<alike[ \t]+on[ \t]+both[ \t]+sides[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<attachments[ \t]+removed[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<bake[ \t]+before[ \t]+cooling[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<calibration[ \t]+in[ \t]+date[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<capacitor[ \t]+discharge[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<change[ \t]+to[ \t]+the[ \t]+spare[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<hot\-surface[ \t]+warning[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<insulation[ \t]+complete[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<lighting[ \t]+and[ \t]+access[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<tag[ \t]+matches[ \t]+channel[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<thermocouple[ \t]+places[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<zones[ \t]+match[ \t]+drawing[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<above[ \t]+upper[ \t]+critical[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<below[ \t]+lower[ \t]+critical[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<controlling[ \t]+in[ \t]+range[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<expanded[ \t]+uncertainty[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<for[ \t]+information[ \t]+only[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<normalize[ \t]+and[ \t]+temper[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heated[ \t]+with[ \t]+the[ \t]+joint[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<quenched[ \t]+and[ \t]+tempered[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<start[ \t]+and[ \t]+end[ \t]+of[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<structural[ \t]+attachment[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<wet[ \t]+hydrogen[ \t]+sulphide[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<approved[ \t]+with[ \t]+comments[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<face[ \t]+toward[ \t]+the[ \t]+welder[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<lower\-temperature[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<nearby[ \t]+items[ \t]+protected[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<repeated[ \t]+stress[ \t]+relief[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<without[ \t]+heat[ \t]+treatment[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<at[ \t]+the[ \t]+edge[ \t]+of[ \t]+the[ \t]+heat[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<face[ \t]+away[ \t]+from[ \t]+the[ \t]+heat[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<normalized[ \t]+and[ \t]+tempered[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<repeat[ \t]+half[ \t]+of[ \t]+the[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<thermocouple[ \t]+attachment[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<machined[ \t]+faces[ \t]+protected[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<post\-weld[ \t]+heat[ \t]+treatment[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<in[ \t]+the[ \t]+middle[ \t]+of[ \t]+the[ \t]+heat[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<program[ \t]+matches[ \t]+procedure[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<wider[ \t]+on[ \t]+the[ \t]+thicker[ \t]+side[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<intermediate[ \t]+stress[ \t]+relief[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<resume[ \t]+at[ \t]+the[ \t]+allowed[ \t]+rate[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<thermo\-mechanically[ \t]+rolled[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<while[ \t]+controlling[ \t]+in[ \t]+range[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<adjust[ \t]+neighbouring[ \t]+heaters[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<cool[ \t]+on[ \t]+at[ \t]+the[ \t]+allowed[ \t]+rate[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<heat[ \t]+treatment[ \t]+asked[ \t]+for[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<prohibited[ \t]+without[ \t]+approval[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<widths[ \t]+by[ \t]+multiples[ \t]+of[ \t]+wall[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<between[ \t]+critical[ \t]+temperatures[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<cool[ \t]+slowly[ \t]+and[ \t]+preheat[ \t]+again[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<temperature\-indicating[ \t]+crayon[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<resume[ \t]+at[ \t]+the[ \t]+present[ \t]+temperature[-.0-9A-Za-z_]@!/
syntax match htsChoice /\v<above[ \t]+upper[ \t]+then[ \t]+below[ \t]+lower[ \t]+critical[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<each[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<only[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<baked[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<taped[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<needed[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<on[ \t]+weld[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<removed[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<accepted[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<in[ \t]+total[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<not[ \t]+used[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<shielded[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<together[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<all[ \t]+round[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<bent[ \t]+flat[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<protected[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<single[ \t]+pass[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<nickel[ \t]+based[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<not[ \t]+connected[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<with[ \t]+hardness[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<blank[ \t]+left[ \t]+out[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<each[ \t]+leg[ \t]+apart[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<flame[ \t]+kept[ \t]+off[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<with[ \t]+toughness[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<pull[ \t]+test[ \t]+by[ \t]+hand[-.0-9A-Za-z_]@!/
syntax match htsFlag /\v<where[ \t]+others[ \t]+are[ \t]+silent[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<DN[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<at[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<by[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<in[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<is[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<of[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<on[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<to[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<NPS[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<and[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<arc[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<for[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<pad[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<per[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<bias[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<else[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<ends[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<from[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<hold[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<kept[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<kind[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<lead[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<like[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<over[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<page[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<part[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<side[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<type[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<wall[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<when[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<wire[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<with[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<about[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<above[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<after[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<along[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<angle[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<class[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<count[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<gauge[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<pitch[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<power[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<range[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<slope[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<taper[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<turns[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<under[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<until[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<width[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<wound[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<agreed[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<answer[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<clause[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<closed[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<energy[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<extent[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<filler[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<layers[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<length[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<offset[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<on[ \t]+the[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<people[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<placed[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<places[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<report[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<sketch[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<starts[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<status[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<target[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<toward[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<welder[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<within[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<because[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<between[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<channel[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<circuit[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<corners[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<decimal[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<density[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<edition[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<heaters[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<overlap[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<preheat[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<process[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<section[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<surface[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<watches[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<at[ \t]+least[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<controls[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<monitors[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<position[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<recorder[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<replaces[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<revision[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<schedule[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<stripped[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<condition[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<cooled[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<crotch[ \t]+at[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<first[ \t]+leg[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<pull[ \t]+test[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<spare[ \t]+for[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<thickness[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<atmosphere[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<connectors[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<controller[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<heat[ \t]+input[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<legs[ \t]+apart[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<resistance[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<uniformity[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<accepted[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<approved[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<certificate[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<counts[ \t]+from[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<heat[ \t]+number[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<hottest[ \t]+end[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<cover[ \t]+fillet[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<monitored[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<times[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<surveyed[ \t]+until[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<control[ \t]+channel[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<outside[ \t]+diameter[-.0-9A-Za-z_]@!/
syntax match htsClause /\v<of[ \t]+base[ \t]+metal[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsby[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsjob[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspad[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsuse[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsarea[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsaxis[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbake[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbook[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbore[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscoil[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscool[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscrew[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdone[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsends[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsflow[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheat[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshold[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zskind[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zslike[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsline[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsonly[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspart[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspipe[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsrows[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsseam[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsshow[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsside[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zssoak[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsspec[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsunit[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswall[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsweld[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zszone[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsblank[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscheck[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsclock[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscycle[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdatum[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdried[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zserror[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgrade[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgroup[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsjoint[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsleads[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsliner[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsorder[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsscope[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsspool[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsuntil[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswaive[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswidth[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zszones[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsallows[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsamends[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbegins[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsclient[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscolumn[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscycles[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsfiller[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgap[ \t]+at[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheater[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zslayout[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zslining[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmethod[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsnearby[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsnumber[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsoutput[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspermit[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsreason[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsserial[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zssigned[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsthroat[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsviewed[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsat[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbetween[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscaution[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zschecked[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscolours[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscopy[ \t]+to[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscurrent[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdraught[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdrawing[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsexamine[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsfinally[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsflanges[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsfollows[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsforbids[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsfurnace[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheating[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshistory[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmade[ \t]+in[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmarking[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsprefers[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspreheat[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsprogram[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsproject[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspurpose[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsresults[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zss\-group[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsservice[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsshelter[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsstandby[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zssupport[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsvoltage[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsweld[ \t]+is[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswelding[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswithout[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapproved[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsat[ \t]+least[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsattached[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zschannels[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscircuits[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsen[ \t]+group[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsendorsed[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsexamined[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshardness[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsinterval[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmaterial[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsp\-number[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsprepared[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsrecorder[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsrequires[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsreviewed[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsrevision[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zssegments[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstempered[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswire[ \t]+lot[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbake[ \t]+time[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscap[ \t]+width[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscondition[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsexcursion[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsexpansion[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsextension[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshand[ \t]+over[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshold[ \t]+time[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsinterpass[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsprocedure[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsqualified[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsrate[ \t]+over[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsreference[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsseparator[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zssoak[ \t]+band[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstechnique[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstime[ \t]+base[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsweld[ \t]+list[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsafter[ \t]+heat[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsattachment[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbake[ \t]+width[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsband[ \t]+ratio[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbore[ \t]+state[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscalibrated[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscontroller[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdefinition[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsguard[ \t]+band[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshold[ \t]+point[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsinsulation[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zskeep[ \t]+until[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsopen[ \t]+point[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsplant[ \t]+unit[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspowered[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsprecedence[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsresolution[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstest[ \t]+after[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstest[ \t]+plate[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstotal[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsweld[ \t]+first[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsalarm[ \t]+above[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsalarm[ \t]+below[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapplication[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbefore[ \t]+heat[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbranch[ \t]+weld[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscalculation[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zschart[ \t]+shows[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zschart[ \t]+speed[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscomposition[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsduring[ \t]+heat[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgap[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgoverned[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheat[ \t]+number[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheated[ \t]+band[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshold[ \t]+counts[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmeasured[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspart[ \t]+length[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspredict[ \t]+lag[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsrate[ \t]+margin[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsrecorded[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapplies[ \t]+when[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbegin[ \t]+within[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscable[ \t]+rating[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscooling[ \t]+rate[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgroove[ \t]+depth[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheating[ \t]+rate[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zskeep[ \t]+records[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmean[ \t]+of[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsnot[ \t]+required[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zson[ \t]+over\-rate[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspower[ \t]+source[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsreview[ \t]+point[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zssensor[ \t]+break[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsstraightness[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswithout[ \t]+zone[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscircuit[ \t]+power[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscontrolled[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zserror[ \t]+of[ \t]+span[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgradient[ \t]+band[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheavy[ \t]+section[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zslead[ \t]+at[ \t]+least[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zson[ \t]+power[ \t]+loss[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspower[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspower[ \t]+density[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspreheat[ \t]+width[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsqualification[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsreading[ \t]+every[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsshare[ \t]+of[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsthermocouples[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswitness[ \t]+point[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsalready[ \t]+heated[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zschannel[ \t]+offset[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscharge[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsclassification[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsend[ \t]+of[ \t]+control[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheating[ \t]+spread[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsholding[ \t]+spread[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsjunction[ \t]+cover[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsleg[ \t]+separation[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zslower[ \t]+critical[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zson[ \t]+heater[ \t]+loss[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsrate[ \t]+excursion[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsresponsibility[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsspare[ \t]+distance[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsthin\-wall[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstraces[ \t]+told[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsunload[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsweld[ \t]+thickness[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapplies[ \t]+to[ \t]+kind[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapplies[ \t]+to[ \t]+wall[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsband[ \t]+narrows[ \t]+to[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdeviation[ \t]+alarm[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsfurnace[ \t]+overlap[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsoverlap[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswire[ \t]+insulation[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbake[ \t]+temperature[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdrawing[ \t]+revision[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zserror[ \t]+of[ \t]+reading[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsfirst[ \t]+cool[ \t]+below[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshold[ \t]+temperature[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsinterrupted[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zson[ \t]+cooling[ \t]+fault[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsoutside[ \t]+diameter[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspreheat[ \t]+category[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspreheat[ \t]+distance[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsprogram[ \t]+revision[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsspecified[ \t]+carbon[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsstart[ \t]+of[ \t]+control[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstensile[ \t]+strength[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsunsupported[ \t]+span[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswhen[ \t]+interrupted[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapplies[ \t]+to[ \t]+method[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsattachment[ \t]+energy[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscontrol[ \t]+tolerance[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgap[ \t]+along[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsinside[ \t]+insulation[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsleaves[ \t]+to[ \t]+the[ \t]+job[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmaintain[ \t]+at[ \t]+least[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmeasured[ \t]+hardness[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspredict[ \t]+soak[ \t]+band[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsweld[ \t]+cooling[ \t]+time[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapplies[ \t]+to[ \t]+service[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsbake[ \t]+gradient[ \t]+band[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscharge[ \t]+temperature[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspredict[ \t]+confidence[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsreference[ \t]+junction[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsthermocouple[ \t]+spots[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsunload[ \t]+temperature[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapplies[ \t]+to[ \t]+p\-number[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdiffusible[ \t]+hydrogen[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsgoverning[ \t]+thickness[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zslining[ \t]+removed[ \t]+over[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsout[ \t]+of[ \t]+oven[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstemperature[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstempering[ \t]+parameter[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheating[ \t]+rate[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsnickel[ \t]+and[ \t]+manganese[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zson[ \t]+thermocouple[ \t]+loss[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsprohibited[ \t]+treatment[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zscontrol[ \t]+thermocouples[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsholding[ \t]+oven[ \t]+at[ \t]+least[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zshydrogen[ \t]+left[ \t]+at[ \t]+most[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmeasured[ \t]+straightness[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zslower\-temperature[ \t]+hold[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmargin[ \t]+below[ \t]+tempering[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspredict[ \t]+axial[ \t]+gradient[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsremove[ \t]+insulation[ \t]+below[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zswait[ \t]+for[ \t]+slowest[ \t]+within[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsweld[ \t]+or[ \t]+peen[ \t]+afterwards[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmonitoring[ \t]+thermocouples[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zspost\-weld[ \t]+heat[ \t]+treatment[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsremove[ \t]+thermocouples[ \t]+below[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsapplies[ \t]+to[ \t]+outside[ \t]+diameter[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsdelay[ \t]+before[ \t]+heat[ \t]+treatment[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsheat[ \t]+treatment[ \t]+asked[ \t]+for[ \t]+by[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsmargin[ \t]+below[ \t]+lower[ \t]+critical[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zsinsulation[ \t]+resistance[ \t]+at[ \t]+least[-.0-9A-Za-z_]@!/
syntax match htsEntry /\v^\s*\zstemperature[ \t]+before[ \t]+heat[ \t]+treatment[-.0-9A-Za-z_]@!/
syntax match htsNumber /\v(<|-)\d+(\.\d+)?([ \t]+\d+\/\d+|\/\d+)?>/
syntax match htsNumber /\v<\d{4}-\d\d-\d\d>|<\d{1,2}:\d\d>/
syntax match htsUnit /\v(\d[ \t]*)@<=(ft2\*h\*degF\/BTU|BTU\/h\/ft\/degF|ft2\*h\*°F\/BTU|ft\²\*h\*°F\/BTU|BTU\/h\/ft\/°F|deg[ \t]+C\/hours|deg[ \t]+F\/hours|deg[ \t]+C\/hour|deg[ \t]+F\/hour|degC\/hours|degF\/hours|degc\/hours|degf\/hours|deg[ \t]+C\/hrs|deg[ \t]+C\/min|deg[ \t]+F\/hrs|deg[ \t]+F\/min|degC\/hour|degF\/hour|degc\/hour|degf\/hour|°[ \t]+C\/hours|°[ \t]+F\/hours|deg[ \t]+C\/hr|deg[ \t]+F\/hr|degC\/hrs|degC\/min|degF\/hrs|degF\/min|degc\/hrs|degc\/min|degf\/hrs|degf\/min|mL\/100[ \t]+g|ml\/100[ \t]+g|°[ \t]+C\/hour|°[ \t]+F\/hour|°C\/hours|°F\/hours|C\/hours|F\/hours|K\/hours|deg[ \t]+C\/h|deg[ \t]+F\/h|degC\/hr|degF\/hr|degc\/hr|degf\/hr|degrees|hr\/inch|mL\/100g|minutes|ml\/100g|seconds|°[ \t]+C\/hrs|°[ \t]+C\/min|°[ \t]+F\/hrs|°[ \t]+F\/min|°C\/hour|°F\/hour|\℃\/hours|\℉\/hours|C\/hour|F\/hour|K\/hour|cm\/min|degC\/h|degF\/h|degc\/h|degf\/h|h\/inch|in\/min|inches|kelvin|lb\/ft3|lb\/ft\³|m2\*K\/W|min\/in|min\/mm|minute|mm\/min|m\²\*K\/W|second|°[ \t]+C\/hr|°[ \t]+F\/hr|°C\/hrs|°C\/min|°F\/hrs|°F\/min|\℃\/hour|\℉\/hour|C\/hrs|C\/min|F\/hrs|F\/min|K\/hrs|K\/min|N\/mm2|N\/mm\²|W\/cm2|W\/cm\²|W\/in2|W\/in\²|deg[ \t]+C|deg[ \t]+F|hours|hr\/in|kJ\/cm|kJ\/in|kJ\/mm|kW\/m2|kW\/m\²|kg\/m3|kg\/m\³|m2K\/W|m\²K\/W|°[ \t]+C\/h|°[ \t]+F\/h|°C\/hr|°F\/hr|\℃\/hrs|\℃\/min|\℉\/hrs|\℉\/min|C\/hr|F\/hr|HV10|K\/hr|Mohm|W\/mK|days|degC|degF|degc|degf|feet|foot|h\/in|h\/mm|hour|in\/h|inch|kW\*h|kohm|mins|mm\/h|mm\/s|s\/mm|secs|°C\/h|°F\/h|\℃\/hr|\℉\/hr|BTU|C\/h|F\/h|HBW|HRC|HV5|K\/h|KVA|MPa|Mpa|W\*s|day|deg|hrs|kVA|kWh|ksi|kva|lbs|min|mpa|ohm|ppm|psi|sec|°[ \t]+C|°[ \t]+F|\℃\/h|\℉\/h|HB|HV|KW|MJ|MW|M\Ω|cm|ft|hr|in|kJ|kW|kg|kw|k\Ω|lb|mA|mV|mm|um|°C|°F|\µm|\μm|\%|A|C|F|J|K|V|W|d|g|h|m|s|°|\Ω|\℃|\℉)(\w)@!/
syntax match htsEntry /\v<by[ \t]+rule>/
syntax region htsText start=/"/ skip=/\\./ end=/"/ oneline
syntax match htsComment /#.*$/
syntax region htsBlock start=/{/ end=/}/ transparent fold
setlocal commentstring=#\ %s
highlight default link htsEntry Statement
highlight default link htsClause Identifier
highlight default link htsFlag StorageClass
highlight default link htsChoice Constant
highlight default link htsNumber Number
highlight default link htsUnit Type
highlight default link htsText String
highlight default link htsComment Comment
let b:current_syntax = 'hts'
