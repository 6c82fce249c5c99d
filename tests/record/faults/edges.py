"""By detector of a record: a change that is made, its amounts on either side of the edge of what is
told, and the first of what is told. The thresholds are ours (basis: practice)."""

from __future__ import annotations

EDGES: dict[str, list[tuple[str, float, float, str]]] = {
    "agreement.apart_when_cold": [
        ("T6 above while cold", 7.934, 7.957, "apart-when-cold T6 0-44940"),
        ("zone top above its control", 6.943, 6.96, "apart-when-cold T1S 0-44940"),
        ("T1S above while cold", 6.743, 6.763, "apart-when-cold T1S 0-44940"),
        ("T2S above", 7.844, 7.867, "apart-when-cold T2S 0-44940"),
        ("T3 below", 7.733, 7.756, "apart-when-cold T3 0-44940"),
        ("T3 below while cold", 7.733, 7.756, "apart-when-cold T3 0-44940"),
        ("T3 stands at", 27.63, 27.73, "apart-when-cold T3 0-44940"),
        ("T3 times", 0.6165, 0.6186, "apart-when-cold T3 0-44940"),
        ("T5 above", 7.834, 7.854, "apart-when-cold T5 0-44940"),
    ],
    "agreement.disagreeing": [
        ("control of zone top drifts", 0.4255, 0.4268, "disagree T1+T1S 32640-33240"),
        ("zone top above its control", 10.93, 10.96, "disagree T1+T1S 41340-42180"),
        (
            "zone top below its control by a share",
            2.431,
            2.438,
            "disagree T1+T1S 16080-16740 21840-22620",
        ),
        ("T1 at a heater", 13.41, 13.45, "disagree T1+T1S 10320-10920"),
        ("T1S above while cold", 11.04, 11.08, "disagree T1+T1S 1740-2520"),
        ("T2S above", 10.82, 10.86, "disagree T2+T2S 4920-5820"),
        ("drift up of T1", 0.4229, 0.4243, "disagree T1+T1S 29940-30540"),
    ],
    "came_off.came_off": [
        ("T3 comes loose", 66.9, 67.11, "detached T3 10920-44940"),
        ("T3 falls off", 2.932, 2.94, "ambient T3 18060-44940"),
        ("T3 falls off", 62.78, 62.93, "detached T3 18120-44940"),
        ("T3 low from the hold on", 8.203, 8.232, "detached T3 15660-44940"),
        ("T3 low from the hold on", 19.73, 19.81, "detached T3 15720-44940"),
        ("T3 put back after", 10.97, 11.02, "detached T3 16260-16860"),
        ("T4 cools on", 1.043, 1.047, "detached T4 18120-44940"),
    ],
    "changed_over.with_an_edge": [
        ("T3 and T6 swapped", 8.644, 8.668, "exchanged T3+T6 0-44940"),
    ],
    "clocks.clock_jumps": [
        ("clock set ahead", 7.267, 7.293, "clock-jump all 14340-14838"),
    ],
    "copied_late.copied_late": [
        ("T4 is T3, late", 60.82, 61.02, "copied T3+T4 0-44940"),
    ],
    "copied_part.copied_for_a_time": [
        ("T1S is T1 for a while", 19.96, 20.04, "copied T1+T1S 18060-19200"),
        ("T4 is T3 for a while", 20.95, 21.03, "copied T3+T4 18060-19260"),
        ("T7 is T5 for a while", 22.99, 23.08, "copied T5+T7 18060-19380"),
    ],
    "copies.copied": [
        ("T4 is a mean", 0.1504, 0.1511, "worked-out T4 0-44940"),
        ("T4 is T3 with noise", 0.0548, 0.05499, "copied T3+T4 0-44940"),
    ],
    "filled_in.filled_in": [
        ("smooth for", 30.96, 31.05, "filled-in all 17640-18000"),
        ("all stand", 8.973, 9.002, "filled-in all 10860-11220"),
        ("all straight", 6.981, 7.001, "filled-in all 18060-18420"),
    ],
    "for_a_part.for_a_part": [
        ("T3 and T6 swapped", 0.6662, 0.6681, "exchanged T3+T6 42540-44940"),
        ("T3 and T6 swapped", 11.94, 11.98, "exchanged T3+T6 1980-44940"),
        ("T3 put back after", 3.993, 4.007, "shorted T3 16260-16440"),
        ("T3 put back after", 5.984, 6.005, "shorted T3 16260-16500"),
        ("T3 stands while heated", 159.7, 160.3, "shorted T3 0-18600"),
    ],
    "heater_output.near_heaters": [
        ("T1 at a heater", 7.861, 7.885, "near-heater T1 0-44940"),
        ("T3 at a heater", 5.289, 5.305, "near-heater T3 0-44940"),
    ],
    "heating.heater_losses": [
        ("zone top cools for", 0.2569, 0.2576, "heater-loss top 16080-20580"),
        ("zone top cools on", 25.29, 25.37, "heater-loss top 17640-23040"),
    ],
    "leapt_back.leapt_back": [
        ("T1S above while cold", 25.84, 25.93, "offset T1S 3000-44160"),
        ("T3 below while cold", 25.41, 25.49, "offset T3 3000-44160"),
        ("T3 open for a while", 9.981, 10.02, "offset T3 7200-7800"),
        ("T3 open for a while", 102.7, 103.2, "offset T3 7200-13320"),
    ],
    "levels.lost_places": [
        ("T3 and T6 swapped", 1.863, 1.869, "shorted T3 38220-44940"),
        ("T3 below while cold", 55.84, 56.01, "ambient T3 44220-44940"),
        ("T3 falls off", 168.2, 168.7, "shorted T3 0-44940"),
        ("T3 open for a while", 31.91, 32.03, "shorted T3 9180-44940"),
        ("T3 times", 0.6226, 0.6247, "shorted T3 0-44940"),
        ("all cool, zone top faster", 2.98, 2.993, "shorted T3 0-44940"),
        ("rows of a spike", 45.96, 46.09, "shorted T3 2760-40200"),
    ],
    "levels.reading_low": [
        ("T3 below", 20.92, 20.99, "extension-reversed T3 0-44940"),
        ("T3 falls off", 97.01, 97.23, "drift T3 0-44940"),
        ("T4 cools on", 8.85, 8.874, "drift T4 0-44940"),
        ("T4 is T3, late", 87.86, 88.14, "extension-reversed T4 0-44940"),
        ("T4 leaks above 550 degC", 21.61, 21.7, "extension-reversed T4 0-44940"),
        ("T4 leaks above 550 degC", 140.1, 140.7, "extension-reversed T4 0-44940"),
        ("step down of T4 in the hold", 29.43, 29.51, "drift T4 0-44940"),
    ],
    "misreading.misreading": [
        ("T1 at a heater", 20.9, 20.97, "near-heater T1 0-44940"),
        ("T3 at a heater", 27.69, 27.78, "near-heater T3 0-44940"),
        ("T3 goes to", 228.8, 229.6, "insulation-leak T3 0-44940"),
        ("T3 goes to", 831.3, 834.1, "offset T3 10800-44940"),
        ("T4 cools on", 1.337, 1.341, "drift T4 13020-44940"),
        ("T4 low", 3.149, 3.16, "extension-reversed T4 0-44940"),
        ("step up of T3", 33.48, 33.57, "offset T3 10800-44940"),
    ],
    "noisy.pick_up": [
        ("T3 times", 6.914, 6.937, "mains-pick-up T3 9600-10800 16800-18000"),
        ("T4 is T3 with noise", 1.619, 1.625, "mains-pick-up T4 6000-7200 39600-40800"),
        ("pick-up of T3", 1.766, 1.773, "mains-pick-up T3 30000-31200 34800-36000"),
    ],
    "other_unit.along_the_pipe": [
        ("T5 times", 1.639, 1.644, "wrong-unit T5 0-44940"),
        ("T5 times", 3.03, 3.037, "wrong-unit T5 0-44940"),
        ("T3 goes to", 117.5, 118, "wrong-unit T5 0-44940"),
        ("T3 goes to", 315.6, 316.7, "wrong-unit T5 0-44940"),
        ("T3 put back after", 125.9, 126.4, "wrong-unit T5 0-44940"),
        ("T3 stands at", 117.5, 118, "wrong-unit T5 0-44940"),
        ("T3 stands at", 315.6, 316.7, "wrong-unit T5 0-44940"),
        ("T3 times", 0.1955, 0.1962, "wrong-unit T5 0-44940"),
        ("T3 times", 0.5254, 0.5272, "wrong-unit T5 0-44940"),
    ],
    "put_in_again.put_in_again": [
        ("rows again", 21.96, 22.03, "rows-repeated all 17520-18780"),
    ],
    "repeats.as_the_row_before": [
        ("read seldom", 1.997, 2.002, "rows-repeated all 180-180 300-300"),
        ("read seldom", 15.98, 16.03, "rows-repeated all 960-1740 1860-2640"),
        ("all stand", 10.98, 11.03, "rows-repeated all 10860-11400"),
    ],
    "repeats.frozen": [
        ("read seldom", 10.98, 11.02, "all-stand-still all 2040-2580 2700-3240"),
        ("all stand", 5.983, 6.003, "all-stand-still all 10860-11100"),
    ],
    "repeats.repeated": [
        ("rows again", 9.979, 10.01, "rows-repeated all 16800-17340"),
    ],
    "scale.open_circuits": [
        ("T3 goes to", 794.7, 797.3, "open-upscale T3 10800-44940"),
        ("T3 open for a while", 2.994, 3.006, "open-upscale T3 7200-7380"),
        ("T3 stands at", 794.7, 797.3, "open-upscale T3 0-44940"),
    ],
    "scattered.scattered": [
        ("T3 scatters in the hold", 0.7074, 0.7093, "edited T3 15120-20100"),
    ],
    "seams.seams": [
        ("rows again", 60.97, 61.14, "rows-repeated all 19680-24480"),
    ],
    "spikes.spikes": [
        ("T3 open for a while", 2.994, 3.006, "spikes T3 7200-7320"),
        ("T3 put back after", 3.993, 4.007, "spikes T3 16260-16380"),
        ("pick-up of T3", 5.58, 5.599, "spikes T3 11100-11100"),
        ("rows of a spike", 3.999, 4.01, "spikes T3 12660-12780 25320-25440"),
        ("spikes of T3", 19.84, 19.9, "spikes T3 6000-6000"),
    ],
    "steps.steps": [
        ("T1S above while cold", 8.234, 8.258, "offset T1S+T1 44220-44940"),
        ("T1S above while cold", 47.73, 47.88, "offset T1S+T1 3000-44940"),
        ("T3 low from the hold on", 0.9968, 1.001, "offset T3 15840-44940"),
        ("T3 low from the hold on", 23.09, 23.18, "extension-reversed T3 15840-44940"),
        ("T3 stands while heated", 14.99, 15.05, "offset T3 9960-44940"),
        ("T3 stands while heated", 22.95, 23.03, "offset T3 10380-44940"),
        ("step down of T4 in the hold", 8.032, 8.053, "offset T4 18720-44940"),
    ],
    "still.flat": [
        ("T3 moves about 95 degC", 8.844, 8.878, "flat T3 0-44940"),
    ],
    "still.stuck": [
        ("T3 cut off", 6.046, 6.059, "stuck T3 21300-23640"),
        ("all cut off", 2.447, 2.454, "stuck T2S 17760-20160"),
        ("all cut off", 88.24, 88.46, "stuck T1 13080-26700"),
        ("T2 stands in the hold", 38.97, 39.08, "stuck T2 16920-19260"),
        ("T3 goes to", 35.29, 35.41, "stuck T3 10800-44940"),
        ("T3 open for a while", 7.976, 8.005, "stuck T3 7200-7680"),
        ("T3 stands while heated", 9.975, 10.01, "stuck T3 9060-9600"),
    ],
    "too_still.too_still": [
        ("T3 cut off", 1.449, 1.453, "stuck T3 22800-23460"),
        ("T3 cut off", 10.54, 10.57, "cut-off T3 14940-18120 19680-23820"),
        ("all cut off", 1.549, 1.554, "stuck T2S 18180-19260"),
        ("all cut off", 221.1, 221.8, "cut-off T1 10080-32040"),
        ("smooth for", 34.99, 35.1, "stuck T5 17700-18300"),
        ("smooth for", 39.98, 40.1, "stuck T5 17700-18360"),
        ("T2 stands in the hold", 10.99, 11.02, "stuck T2 16920-17580"),
        ("T3 open for a while", 8.969, 9.001, "stuck T3 7200-7740"),
        ("T3 stands while heated", 9.975, 10.01, "stuck T3 9060-9600"),
        ("all stand", 9.976, 10.01, "stuck T1 10800-11340"),
        ("all straight", 21.96, 22.03, "stuck T2 18000-18660 18720-19440"),
        ("all straight", 40.98, 41.1, "stuck T5 18000-19200 19260-20460"),
    ],
    "whole_record.cold_junction": [
        ("all stand", 2.995, 3.005, "cold-junction all 10860-44940"),
        ("all stand", 9.976, 10.01, "cold-junction all 11460-44940"),
        ("step of all", 4.14, 4.152, "cold-junction all 12600-44940"),
        ("step of all for half an hour", 4.14, 4.152, "cold-junction all 12600-44940"),
    ],
    "whole_record.settings_of_all": [
        ("all times", 0.5102, 0.5115, "wrong-unit all 0-44940"),
        ("all times", 0.6234, 0.625, "wrong-type all 0-44940"),
        ("all times", 1.798, 1.803, "wrong-unit all 0-44940"),
        ("all times", 2.085, 2.091, "wrong-unit all 0-44940"),
    ],
    "in_the_loop.in_the_loop": [
        ("control of zone top drifts", 0.4972, 0.4988, "drift T1 10320-44940"),
        ("control of zone top drifts", 8.816, 8.844, "drift T1 2340-44940"),
        ("zone top above its control", 11.42, 11.46, "offset T1 0-44940"),
        ("zone top below its control by a share", 1.907, 1.913, "offset T1 0-44940"),
    ],
    "at_the_top.at_the_top": [
        ("T3 cut off", 11.24, 11.27, "cut-off T3 14880-23880"),
        ("all cut off", 2.246, 2.252, "cut-off T2 17940-19860"),
    ],
    "changed_over.with_spares": [
        ("T1 and T2 swapped", 8.92, 8.94, "exchanged T1+T2 0-44940"),
        ("T1S and T2S swapped", 8.92, 8.94, "exchanged T1S+T2S 0-44940"),
    ],
    "exchanged.exchanged": [
        ("T1 and T2 swapped", 8.883, 8.902, "exchanged T1+T2 0-44940"),
    ],
    "drawn_in.drawn_in": [
        ("T3 drawn by hand", 112.8, 113.2, "filled-in T3 9000-15840"),
    ],
    "resampled.resampled": [
        ("a line between readings", 39.9, 40, "filled-in all 0-44940"),
    ],
}
