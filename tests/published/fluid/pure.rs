//! Water: the IAPWS equations and the table.

use super::by_mass;
use crate::accuracy::{Row, Tally, column};
use coldmark::fluid::water;
use coldmark::quantity::si::ThermodynamicTemperature;
use coldmark::quantity::{Measured, celsius};
use coldmark::scribe::Silent;

/// Independent unless the row says otherwise.
pub fn water_rows() -> Vec<Row> {
    const NAME: &str = "water_saturation.csv";
    // The first row of the table was computed at the triple point, 0.01 °C, and is read as 0 °C by the program.
    let compare_from =
        |first: f64, mut tally: Tally, heading: &str, computed: &dyn Fn(ThermodynamicTemperature) -> f64| {
            for (t, expected) in column(NAME, "T_C").into_iter().zip(column(NAME, heading)) {
                tally.relative(computed(celsius(t.unwrap().max(first))), expected.unwrap());
            }
            tally.row()
        };
    let compare = |tally, heading: &str, computed: &dyn Fn(_) -> _| compare_from(0.01, tally, heading, computed);
    let port = |tally, heading: &str, computed: &dyn Fn(_) -> _| compare_from(0.0, tally, heading, computed);
    let ps = |t| water::saturation_pressure(t, &mut Silent).unwrap().base();
    let rho = |t| water::liquid_density(t, &mut Silent).unwrap().base();
    let steam = |t| water::steam_density(t, &mut Silent).unwrap().base();
    let latent = |t| water::latent_heat(t, &mut Silent).unwrap().base() / 1e3;
    let cp = |t| water::specific_heat(t, &mut Silent).unwrap().base();
    let mu = |t| water::viscosity(t, &mut Silent).unwrap().base() * 1e6;
    let k = |t| water::conductivity(t, &mut Silent).unwrap().base();
    let mut rows = vec![
        compare(Tally::new("saturation pressure of water", "IAPWS-IF97, independent", "%", 0.01), "psat_IF97_Pa", &ps),
        compare(Tally::new("saturation pressure of water", "IAPWS-95, independent", "%", 0.01), "psat_IAPWS95_Pa", &ps),
        compare(Tally::new("density of water", "IAPWS-IF97, independent", "%", 0.003), "rho_liq_IF97_kg_m3", &rho),
        compare(Tally::new("density of water", "IAPWS-95, independent", "%", 0.002), "rho_liq_IAPWS95_kg_m3", &rho),
        compare(
            Tally::new("density of water at 3 bar", "IAPWS-95, independent; compression left out", "%", 0.016),
            "rho_liq_at_3bar_kg_m3",
            &rho,
        ),
        compare(Tally::new("density of steam", "IAPWS-IF97, independent", "%", 0.05), "rho_vap_kg_m3", &steam),
        compare(Tally::new("latent heat of water", "IAPWS-IF97, independent", "%", 0.05), "latent_heat_kJ_kg", &latent),
        port(Tally::new("specific heat of water", "table of IAPWS values, port", "%", 1e-9), "cp_liq_J_kgK", &cp),
        port(Tally::new("viscosity of water", "table of IAPWS values, port", "%", 1e-9), "mu_liq_uPa_s", &mu),
        port(Tally::new("conductivity of water", "table of IAPWS values, port", "%", 1e-9), "k_liq_W_mK", &k),
    ];
    rows.extend(sr1_86_rows());
    // Between the knots: saturated liquid by IAPWS-IF97, R12-08 and R15-11, computed with the library iapws 1.5.5.
    const BETWEEN: [(f64, f64, f64, f64); 13] = [
        (2.5, 4211.88, 1646.078, 0.56181),
        (7.5, 4200.11, 1405.743, 0.57335),
        (12.5, 4192.32, 1217.142, 0.58383),
        (22.5, 4183.49, 943.177, 0.60229),
        (37.5, 4178.91, 684.613, 0.62511),
        (42.5, 4178.81, 623.177, 0.63166),
        (47.5, 4179.30, 570.259, 0.63772),
        (62.5, 4184.07, 448.947, 0.65331),
        (77.5, 4193.59, 365.405, 0.66531),
        (92.5, 4207.78, 305.417, 0.67402),
        (102.5, 4219.87, 274.370, 0.67812),
        (117.5, 4242.15, 237.320, 0.68188),
        (127.5, 4259.98, 217.427, 0.68288),
    ];
    const LIBRARY: &str = "IAPWS between the table's knots (library iapws), independent";
    let mut tallies = [
        Tally::new("specific heat of water", LIBRARY, "%", 0.02),
        Tally::new("viscosity of water", LIBRARY, "%", 0.2),
        Tally::new("conductivity of water", LIBRARY, "%", 0.02),
    ];
    for (t, c, m, l) in BETWEEN {
        let t = celsius(t);
        for (tally, (computed, expected)) in tallies.iter_mut().zip([(cp(t), c), (mu(t), m), (k(t), l)]) {
            tally.relative(computed, expected);
        }
    }
    rows.extend(tallies.map(Tally::row));
    rows.push(undercooled_row());
    rows
}

/// The verification values the release itself prints (IAPWS SR1-86(1992), table 1), to their printed digits.
fn sr1_86_rows() -> [Row; 4] {
    const SOURCE: &str = "IAPWS SR1-86(1992), table 1, port";
    let mut pressure = Tally::new("saturation pressure of water", SOURCE, "%", 1e-4);
    let mut liquid = Tally::new("density of water", SOURCE, "%", 1e-4);
    let mut steam = Tally::new("density of steam", SOURCE, "%", 1e-4);
    // Enthalpies are printed to 0.1 and 0.01 kJ/kg; at the triple point 2500.5 stands for 2500.5 ± 0.05.
    let mut latent = Tally::new("latent heat of water", SOURCE, "%", 0.005);
    for (t, ps, rho, vapour, heat) in [
        (273.16, 611.657, 999.789, 0.004_854_26, 2500.5 - 0.000_611_786),
        (373.1243, 101_325.0, 958.365, 0.597_586, 2675.7 - 419.05),
    ] {
        let t = ThermodynamicTemperature::from_base(t);
        pressure.relative(water::saturation_pressure(t, &mut Silent).unwrap().base(), ps);
        liquid.relative(water::liquid_density(t, &mut Silent).unwrap().base(), rho);
        steam.relative(water::steam_density(t, &mut Silent).unwrap().base(), vapour);
        latent.relative(water::latent_heat(t, &mut Silent).unwrap().base() / 1e3, heat);
    }
    let critical = ThermodynamicTemperature::from_base(647.096);
    pressure.relative(water::saturation_pressure(critical, &mut Silent).unwrap().base(), 22.064e6);
    liquid.relative(water::liquid_density(critical, &mut Silent).unwrap().base(), 322.0);
    steam.relative(water::steam_density(critical, &mut Silent).unwrap().base(), 322.0);
    assert_eq!(water::latent_heat(critical, &mut Silent).unwrap().base(), 0.0);
    [pressure, liquid, steam, latent].map(Tally::row)
}

/// Below 0 °C the saturation pressure is continued for undercooled water in a mix. Against D. M. Murphy and T. Koop,
/// Q. J. R. Meteorol. Soc. 131 (2005) 1539, equation 10. Seen through a mix so weak that the glycol cannot matter is
/// impossible, for it would be frozen; so through strong mixes whose glycol share of the pressure is below 1e-4 and
/// whose water share is taken out by their own ratio at 20 °C.
fn undercooled_row() -> Row {
    let murphy_koop = |t: f64| {
        (54.842_763 - 6763.22 / t - 4.210 * t.ln()
            + 0.000_367 * t
            + (0.0415 * (t - 218.8)).tanh() * (53.878 - 1331.22 / t - 9.445_23 * t.ln() + 0.014_025 * t))
            .exp()
    };
    let mut tally = Tally::new(
        "vapour pressure over undercooled water",
        "Murphy and Koop 2005, equation 10, independent",
        "%",
        1.0,
    );
    let mix = by_mass("EG", 0.60);
    let pressure = |t: f64| mix.vapour_pressure(celsius(t), &mut Silent).unwrap().base();
    let share = pressure(0.01) / murphy_koop(273.16);
    for t in [-5.0, -10.0, -15.0, -20.0, -25.0, -30.0, -35.0, -40.0] {
        tally.relative(pressure(t) / share, murphy_koop(t + 273.15));
    }
    tally.row()
}
