"""Steel: what composition, temperature and time do to it. Plain floats, mass % and degC.

Import from the modules:

composition        formulas linear in the analysis, with what was missing or out of range
carbon_equivalent  CE (IIW), CET, Pcm, CEN
preheat            EN 1011-2 method B
preheat_thickness  EN 1011-2 method A: hydrogen scale, combined thickness, no preheat up to
hydrogen_control   the hydrogen-control method of AWS D1.1
cooling_time       t8/5 after EN 1011-2
transformation     lower critical temperature from the analysis
tempering          Hollomon-Jaffe parameter, equivalent times, recorded traces
hydrogen           diffusion of hydrogen out of a wall
qualification      time at temperature against the qualification test
"""
