"""Thermocouples. Import from the modules, so that a caller loads only what it uses:

reference  emf, temperature, Seebeck coefficient, ranges (ITS-90)
tolerance  limits of error of wire (IEC 60584-1, ASTM E230)
extension  extension and compensating cable: what fits, limits of error
colours    colours of wire and cable, and what a colour can mean
wire       temperature limits of wire and insulation, gauge diameters
faults     what a wiring fault does to the reading
errors     ThermocoupleError and its kinds
facts      the figures, each with where it comes from
"""
