// Package climate finds how hot rail gets in the sun and how cold on a clear
// night, from the weather: the states that package expansion plans gaps for.
//
// # The model
//
// A [Body] is a bar of one temperature, a metre of it seen in cross-section.
// In a steady state
//
//	a·G·w = h·P·(T - T_air) + ε·σ·P·(v·(T⁴ - T_sky⁴) + (1-v)·(T⁴ - T_air⁴))
//
// with a the absorptivity, G the sun on a face square to its rays, w the width
// that it lights, P the girth that loses heat, ε the emissivity and v the part
// of the girth that looks at the sky; the rest looks at things as warm as the
// air. The solution is unique; the balance is met within 1e-6 W/m.
//
//   - h = 2.8 + 3.0 v W/(m² K), v the wind in m/s: Watmuff, Charters and
//     Proctor, Solar and wind induced external coefficients for solar
//     collectors (1977); from memory. Replace it with [Convection]. Small rail
//     cools better than this plate does, so the default errs to the hot side
//     by day and to the cold side by night.
//   - T_sky = 0.0552·T_air^1.5 in kelvins, a clear sky: Swinbank, Long-wave
//     radiation from clear skies, Q. J. R. Met. Soc. 89 (1963); from memory.
//     Taken no warmer than the air, which the formula reaches at 55 °C. Cloud
//     takes T_sky⁴ in proportion to T_air⁴ (common practice, no source).
//   - σ = 5.670374419e-8 W/(m² K⁴), CODATA 2018 (exact since 2019, rounded).
//
// # What it leaves out
//
// A base in the sun: ballast and sleepers shade it, the sun strikes a lying
// face aslant (give the width it lights square to the rays), pale stone and
// concrete throw light back, wet timber and stone cool by drying, and a thick
// base is warmer on top than below. All of it stays with the Body you describe
// and with a thermometer laid on the base.
//
// Storage: a thick base lags by hours and never reaches its steady state, and
// heat into the ground. Both make the true base milder than the answer. Rain,
// dew and evaporation. A measured temperature is better than all of this: read
// the rail on a hot day and compare.
//
// # Units, errors, concurrency
//
// Every quantity is typed or says its unit. Values that cannot be taken wrap
// measure.ErrInput, all of a call together. Everything is a value and safe for
// concurrent use.
//
// Rail in the sun burns the hand: read it with a thermometer.
package climate
