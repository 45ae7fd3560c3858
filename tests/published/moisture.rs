//! Published checks: moisture.
//!
//! References: water saturation of an open property library (IAPWS-95) with the same balances worked out independently; the
//! sublimation equation of IAPWS R14-08(2011) and the vapour pressure over supercooled water of D. M. Murphy and T. Koop,
//! Q. J. R. Meteorol. Soc. 131 (2005) 1539, both written here from memory; reference equations of state of n-alkanes.

use crate::accuracy::{Row, Tally, column, table};
use coldmark::crankcase::moisture::{
    Burning, DewPoint, Fuel, LeastDilution, OutsideAir, Petrol, PetrolCut, WetGas, burnt_water_share,
    charge_fuel_share, dew_point, fuel_boil_off, fuel_dew_point, least_dilution, wall_saturation,
};
use coldmark::quantity::si::{Ratio, ThermodynamicTemperature};
use coldmark::quantity::{AbsolutePressure, Measured, celsius, in_celsius};
use coldmark::scribe::Silent;

fn ratio(value: f64) -> Ratio {
    Ratio::from_base(value)
}

fn sea_level() -> AbsolutePressure {
    AbsolutePressure::from_base(101_325.0)
}

fn numbers(name: &str, heading: &str) -> Vec<f64> {
    column(name, heading).into_iter().map(|value| value.unwrap()).collect()
}

/// The reference burns petrol with dry air.
fn burnt_with_dry_air() -> Ratio {
    burnt_water_share(&Burning::petrol(ratio(0.0)), &mut Silent).unwrap()
}

fn degrees(point: DewPoint) -> f64 {
    in_celsius(point.temperature().unwrap())
}

fn check(quantity: &str, unit: &str) -> f64 {
    let rows = table("crank_checks.csv");
    let row = rows.iter().find(|row| &row[0] == quantity && &row[3] == unit).unwrap();
    row[2].parse().unwrap()
}

fn dew_points() -> [Row; 2] {
    const NAME: &str = "crank_dewpoint.csv";
    let mut shares = Tally::new("water vapour in the crankcase", "independent balance", "%", 1e-6);
    let mut points = Tally::new("dew and frost point", "IAPWS-95 by an open library", "K", 0.2);
    let air = numbers(NAME, "x_water_ambient");
    let burnt = numbers(NAME, "burnt_fraction");
    let dilution = numbers(NAME, "dilution_fresh_per_blowby");
    let (mixed, dew) = (numbers(NAME, "x_water_mix"), numbers(NAME, "dew_point_C"));
    for i in 0..air.len() {
        let gas = WetGas { burnt_share: ratio(burnt[i]), burnt_water: burnt_with_dry_air(), air_water: ratio(air[i]) };
        shares.relative(gas.mixed(ratio(dilution[i]), &mut Silent).unwrap().base(), mixed[i]);
        points.difference(degrees(gas.dew_point(ratio(dilution[i]), sea_level(), &mut Silent).unwrap()), dew[i]);
    }
    [shares.row(), points.row()]
}

fn wall_dilution() -> Row {
    const NAME: &str = "crank_wall_dilution.csv";
    let mut tally = Tally::new("fresh air that keeps a wall dry", "IAPWS-95 by an open library", "%", 1.0);
    // The outside air of each place, from the other table.
    let places = table("crank_dewpoint.csv");
    let air_of = |place: &str| -> f64 { places.iter().find(|row| &row[0] == place).unwrap()[1].parse().unwrap() };
    let (mut none, mut never) = (0, 0);
    for row in table(NAME) {
        let read = |i: usize| -> f64 { row[i].parse().unwrap() };
        let gas = WetGas {
            burnt_share: ratio(read(1)),
            burnt_water: burnt_with_dry_air(),
            air_water: ratio(air_of(&row[0])),
        };
        match least_dilution(&gas, celsius(read(2)), sea_level(), &mut Silent).unwrap() {
            LeastDilution::None => {
                assert_eq!(read(4), 0.0, "{row:?}");
                none += 1;
            }
            LeastDilution::AtLeast(least) => tally.relative(least.base(), read(4)),
            LeastDilution::NoAmount => {
                assert_eq!(read(4), f64::INFINITY, "{row:?}");
                never += 1;
            }
        }
    }
    assert!(none > 20 && never > 3, "{none} {never}");
    tally.row()
}

fn burnt_gas() -> [Row; 3] {
    let mut share = Tally::new("water vapour in burnt petrol", "independent balance", "%", 1e-6);
    share.relative(burnt_with_dry_air().base(), check("water fraction burnt", "mol/mol"));
    let mut point = Tally::new("dew point of burnt gas", "IAPWS-95 by an open library", "K", 0.01);
    point.difference(
        degrees(dew_point(burnt_with_dry_air(), sea_level(), &mut Silent).unwrap()),
        check("dew point burnt", "degC"),
    );
    // Printed to 0.1 K, of shares printed to three digits or less.
    let mut printed = Tally::new("dew point of diluted gas", "IAPWS-95 by an open library, printed to 0.1 K", "K", 0.1);
    for (vapour, expected) in [(0.0625, 37.2), (0.165, 56.2), (0.03, 24.3)] {
        printed.difference(degrees(dew_point(ratio(vapour), sea_level(), &mut Silent).unwrap()), expected);
    }
    [share.row(), point.row(), printed.row()]
}

/// Rich gas, its water found by halving instead of by the quadratic.
fn rich_gas() -> Row {
    let mut tally = Tally::new("water vapour in rich burnt gas", "independent solution of the balance", "%", 1e-6);
    for (y, z) in [(1.87_f64, 0.0_f64), (3.0, 0.5), (2.2, 0.1)] {
        for lambda in [0.7_f64, 0.8, 0.9, 0.99] {
            for vapour in [0.0_f64, 0.02] {
                let needed = 1.0 + y / 4.0 - z / 2.0;
                let with_air = vapour / (1.0 - vapour) * 4.773 * lambda * needed;
                let (hydrogen, oxygen) = (y / 2.0 + with_air, z + 2.0 * lambda * needed + with_air);
                let (mut low, mut high) = ((oxygen - 2.0).max(0.0), hydrogen.min(oxygen - 1.0));
                for _ in 0..200 {
                    let water = 0.5 * (low + high);
                    let dioxide = oxygen - 1.0 - water;
                    let excess = (1.0 - dioxide) * water - 3.5 * dioxide * (hydrogen - water);
                    if excess < 0.0 { low = water } else { high = water }
                }
                let all = 1.0 + hydrogen + 3.773 * lambda * needed;
                let burning = Burning {
                    fuel: Fuel { hydrogen: ratio(y), oxygen: ratio(z) },
                    lambda: ratio(lambda),
                    ..Burning::petrol(ratio(vapour))
                };
                tally.relative(burnt_water_share(&burning, &mut Silent).unwrap().base(), low / all);
            }
        }
    }
    tally.row()
}

/// IAPWS R14-08(2011), K to Pa.
fn sublimation(t: f64) -> f64 {
    let theta = t / 273.16;
    let terms = [(-21.214_400_6, 0.003_333_333_33), (27.320_381_9, 1.206_666_67), (-6.105_981_30, 1.703_333_33)];
    611.657 * (terms.iter().map(|(a, b)| a * theta.powf(*b)).sum::<f64>() / theta).exp()
}

/// Murphy and Koop (2005), K to Pa.
fn supercooled(t: f64) -> f64 {
    let first = 54.842_763 - 6763.22 / t - 4.210 * t.ln() + 0.000_367 * t;
    let second = 53.878 - 1331.22 / t - 9.445_23 * t.ln() + 0.014_025 * t;
    (first + (0.0415 * (t - 218.8)).tanh() * second).exp()
}

fn below_freezing() -> [Row; 2] {
    // The check value printed with the equation, and the triple point.
    assert!((sublimation(230.0) - 8.947_35).abs() < 1e-5);
    assert!((supercooled(273.16) - 611.657).abs() < 0.2);
    let mut ice = Tally::new("vapour pressure over ice", "IAPWS R14-08(2011)", "%", 0.5);
    let mut water = Tally::new("humidity below freezing", "D. M. Murphy and T. Koop, 2005", "%", 1.0);
    for t in (-65..=0).step_by(5) {
        let t = celsius(f64::from(t));
        ice.relative(wall_saturation(t, &mut Silent).unwrap().base(), sublimation(t.base()));
    }
    for t in (-45..=0).step_by(5) {
        let t = celsius(f64::from(t));
        let air = OutsideAir { temperature: t, humidity: ratio(1.0), pressure: sea_level() };
        water.relative(air.vapour_share(&mut Silent).unwrap().base() * 101_325.0, supercooled(t.base()));
    }
    [ice.row(), water.row()]
}

fn petrol_cuts() -> Row {
    // The correlations are good to about 3 %; n-undecane differs most, at 20 °C.
    let mut tally =
        Tally::new("vapour pressure of petrol cuts", "reference equations of state, n-C8 to n-C12", "%", 5.0);
    for row in table("crank_fuel_psat.csv") {
        let name = row[0].to_lowercase();
        let cut = PetrolCut::ALL.into_iter().find(|cut| cut.words() == name).unwrap();
        let pressure = cut.saturation_pressure(celsius(row[1].parse().unwrap()), &mut Silent).unwrap();
        tally.relative(pressure.base() / 1e3, row[2].parse().unwrap());
    }
    tally.row()
}

/// Fuel vapour just so much that the table's pressures of the five cuts add up to one by Raoult: the dew point is the
/// table's temperature.
fn fuel_dew_points() -> Row {
    let mut tally = Tally::new("dew point of petrol in gas", "reference equations of state, n-C8 to n-C12", "K", 1.0);
    let rows = table("crank_fuel_psat.csv");
    for at in ["20", "40", "60", "71", "82"] {
        let of_cut = |cut: PetrolCut| -> f64 {
            let row = rows.iter().find(|row| row[0].to_lowercase() == cut.words() && &row[1] == at).unwrap();
            row[2].parse().unwrap()
        };
        let over = PetrolCut::ALL.into_iter().map(|cut| Petrol::share_of(cut).base() / of_cut(cut)).sum::<f64>();
        let fuel = ratio(1.0 / (over * 101.325));
        let dew = fuel_dew_point(fuel, ratio(1.0), sea_level(), &mut Silent).unwrap().temperature().unwrap();
        tally.difference(in_celsius(dew), at.parse().unwrap());
    }
    tally.row()
}

pub fn accuracy() -> Vec<Row> {
    let mut rows = Vec::from(dew_points());
    rows.push(wall_dilution());
    rows.extend(burnt_gas());
    rows.push(rich_gas());
    rows.extend(below_freezing());
    rows.push(petrol_cuts());
    rows.push(fuel_dew_points());
    rows
}

#[test]
fn moisture_meets_its_references() {
    assert_eq!(accuracy().len(), 11);
}

/// The boiling points that the names of the cuts are explained with (materials handbooks, from memory).
#[test]
fn cuts_boil_where_handbooks_say() {
    for (cut, boils) in [(PetrolCut::Octane, 125.7), (PetrolCut::Nonane, 150.0)] {
        let at: ThermodynamicTemperature = celsius(boils);
        let pressure = cut.saturation_pressure(at, &mut Silent).unwrap().base();
        assert!((pressure / 101_325.0 - 1.0).abs() < 0.03, "{cut:?} {pressure}");
    }
}

/// Evaporation drives 2.5 to 3 times as strongly at 91 °C as at 71 °C.
#[test]
fn a_cool_set_point_keeps_fuel_in_the_oil() {
    let cool = fuel_boil_off(celsius(71.0), celsius(91.0), &mut Silent).unwrap();
    for drive in [cool.decane_drive.base(), cool.dodecane_drive.base()] {
        assert!((2.4..=3.0).contains(&(1.0 / drive)), "{drive}");
    }
}

/// Just enough air for petrol is 14.6 to 14.7 times its mass (textbooks, from memory): of 103 g/mol that is 1.9 % of the
/// molecules, and undiluted it settles on walls about as warm as a hand, as carburettor practice has it.
#[test]
fn the_unburnt_charge_holds_two_percent_of_fuel() {
    let share = charge_fuel_share(&Fuel::petrol(), ratio(7.4), ratio(1.0), &mut Silent).unwrap();
    let by_mass = 1.0 / (1.0 + 14.65 * (7.4 * (12.011 + 1.87 * 1.008)) / 28.97);
    assert!((share.base() / by_mass - 1.0).abs() < 0.01, "{share:?} {by_mass}");
    let dew = fuel_dew_point(share, ratio(1.0), sea_level(), &mut Silent).unwrap().temperature().unwrap();
    assert!((25.0..45.0).contains(&in_celsius(dew)), "{dew:?}");
}
