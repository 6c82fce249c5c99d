"""The temperature field of a pipe weld that is heated over a band: steady and over time.

Bodies of revolution in (r, z), or (r, clock, z) with several cells round. Lengths m, times s,
temperatures degC, fluxes W/m2, coefficients W/(m2 K), powers W. Angles are degrees clockwise
from 12:00; `z` runs along the pipe from the weld. Arrays of a field have the shape
(round, along, through): cells round from 12:00, stations along, nodes from the bore outwards.
Import from the modules:

metal      conductivity and heat content as tables over temperature
pipe       the body of revolution: stations, unequal walls, two metals
mesh       nodes, volumes and surfaces of it
exchange   radiation from ring to ring of the bore
surfaces   states of the bore, cover outside, zones of heaters
banded     linear systems: Fourier series round the pipe, narrow bands along it
model      a pipe with its surfaces and zones: `steady`, `run`
state      one temperature field, read at any place

A field worked out here is a prediction, never evidence of what the metal reached.
"""
