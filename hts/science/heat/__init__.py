"""Heat conduction in pipe walls and sections: SI units, plain floats.

Lengths m, times s, temperatures degC, heating rates K/h, fluxes W/m2, conductivity W/(m K),
diffusivity m2/s, heat transfer coefficients W/(m2 K). Import from the modules:

properties  steels and ceramic fibre: conductivity, specific heat, enthalpy, elongation
lag         how far the far side of a heated wall is behind
wall        transient through-wall temperatures with temperature-dependent properties
section     steady temperatures along and through a pipe heated over a band
conduction  exact solutions, for checking and for quick estimates
losses      radiation, natural convection, loss through insulation
induction   how deep induced current flows
power       power of a heating zone, with what it assumes
stress      stresses of through-wall and axial temperature differences
"""
