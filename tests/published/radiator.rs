//! Published checks: radiator cores, fans, the thermostat's throttling.
//!
//! References: end values of laminar flow in rectangular ducts tabulated by Shah and London (1978), the Graetz solution
//! between parallel plates (Shah and London), efficiency of straight fins in the figure of Incropera and DeWitt, all three
//! from memory; Gnielinski's correlation by the open library `ht`; whole cores and operating points of fans computed a
//! second time in Python (`make_radiator.py`).

use crate::accuracy::{Row, Tally, column};
use coldmark::fluid::{Base, Basis, Mix};
use coldmark::heat::matrix::{
    LAMINAR_END, TURBULENT_FROM, duct_nusselt, fin_efficiency, laminar_nusselt, louvred_j_factor,
};
use coldmark::heat::*;
use coldmark::quantity::si::*;
use coldmark::quantity::{AbsolutePressure, Estimate, Measured, celsius, pascals};
use coldmark::scribe::{Silent, Writing};

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let mut rows = vec![end_values(), graetz(), fins(), ducts()];
    rows.extend(cores());
    rows.push(fans());
    rows
}

fn of<Q: Measured>(base: f64) -> Q {
    Q::from_base(base)
}

/// Table of fully developed laminar flow, walls of one temperature: aspect 1, 1/2, 1/3, 1/4, 1/6, 1/8, plates.
fn end_values() -> Row {
    let reference = "Shah and London (1978), table (from memory)";
    let mut tally = Tally::new("Nusselt number, laminar, rectangular duct", reference, "%", 0.2);
    let table = [
        (1.0, 2.976),
        (0.5, 3.391),
        (1.0 / 3.0, 3.956),
        (0.25, 4.439),
        (1.0 / 6.0, 5.137),
        (0.125, 5.597),
        (0.0, 7.541),
    ];
    for (aspect, expected) in table {
        tally.relative(laminar_nusselt(of(aspect)).unwrap().base(), expected);
    }
    tally.row()
}

/// Thermal entrance between plates with developed flow, x = L/(D·Re·Pr): mean Nu = 1.849·x^(−1/3) + 0.6 to x = 0.006, then
/// 7.541 + 0.0235/x. At Prandtl numbers of coolants the flow develops much sooner than its temperature.
fn graetz() -> Row {
    let reference = "Graetz, parallel plates, Shah and London (from memory)";
    let mut tally = Tally::new("Nusselt number, laminar, entrance", reference, "%", 4.0);
    for x in [0.001_f64, 0.003, 0.006, 0.0125, 0.03, 0.1] {
        let expected = if x > 0.006 { 7.541 + 0.0235 / x } else { 1.849 * x.powf(-1.0 / 3.0) + 0.6 };
        let (re, pr) = (1000.0, 10.0);
        let ours = duct_nusselt(of(re), of(pr), of(0.0), of(x * re * pr), &mut Silent).unwrap();
        tally.relative(ours.base(), expected);
    }
    tally.row()
}

/// tanh(x)/x as tabulated.
fn fins() -> Row {
    let reference = "Incropera and DeWitt, straight fin, adiabatic tip (from memory)";
    let mut tally = Tally::new("fin efficiency", reference, "", 0.00051);
    for (parameter, expected) in [(0.5, 0.924), (1.0, 0.762), (1.5, 0.603), (2.0, 0.482), (3.0, 0.332)] {
        tally.difference(fin_efficiency(of(parameter), &mut Silent).unwrap().base(), expected);
    }
    tally.row()
}

fn ducts() -> Row {
    let table = "radiator_ducts.csv";
    let reference = "open library ht and independent Python";
    let mut tally = Tally::new("Nusselt number of a duct, laminar to turbulent", reference, "%", 6e-6);
    let columns = ["Re", "Pr", "aspect", "slenderness", "Nu"].map(|heading| column(table, heading));
    for (row, re) in columns[0].iter().enumerate() {
        let re = re.unwrap();
        let [pr, aspect, slender, expected] = [1, 2, 3, 4].map(|i: usize| columns[i][row].unwrap());
        let ours = duct_nusselt(of(re), of(pr), of(aspect), of(slender), &mut Silent).unwrap();
        tally.relative(ours.base(), expected);
    }
    tally.row()
}

fn exact() -> MatrixDoubt {
    MatrixDoubt { air: Estimate::exact(of(1.0)), coolant: Estimate::exact(of(1.0)), fouling: Estimate::exact(of(0.0)) }
}

/// Cores and points of the table, with what is expected of them.
fn tabled() -> Vec<(Matrix, MatrixPoint, [f64; 7])> {
    const HEADS: [&str; 26] = [
        "across",
        "along",
        "depth",
        "rows",
        "tube_width",
        "tube_thickness",
        "tube_pitch",
        "wall",
        "fin_pitch",
        "fin",
        "louvre_pitch",
        "louvre_angle",
        "louvre_share",
        "k_tube",
        "k_fin",
        "face",
        "flow",
        "air",
        "coolant",
        "Re_air",
        "Re_tube",
        "eta",
        "outside",
        "inside",
        "UA",
        "air_share",
    ];
    let columns = HEADS.map(|heading| column("radiator_cores.csv", heading));
    (0..columns[0].len())
        .map(|row| {
            let v = HEADS.map(|head| columns[HEADS.iter().position(|h| *h == head).unwrap()][row].unwrap());
            let millimetres = |i: usize| Length::from_base(v[i] * 1e-3);
            let louvres = Louvres { pitch: millimetres(10), angle: of(v[11].to_radians()), length_share: of(v[12]) };
            let matrix = Matrix {
                across: millimetres(0),
                tube_length: millimetres(1),
                depth: millimetres(2),
                rows: v[3] as u32,
                tube_width: millimetres(4),
                tube_thickness: millimetres(5),
                tube_pitch: millimetres(6),
                tube_wall: millimetres(7),
                fin_pitch: millimetres(8),
                fin_thickness: millimetres(9),
                fin: if v[10] > 0.0 { Fin::Louvred(louvres) } else { Fin::Plain },
                tube_conductivity: of(v[13]),
                fin_conductivity: of(v[14]),
            };
            let point = MatrixPoint {
                face_velocity: of(v[15]),
                air_temperature: celsius(v[17]),
                air_pressure: AbsolutePressure::new(pascals(101_325.0)),
                coolant_flow: of(v[16]),
                mix: Mix::water(),
                coolant_temperature: celsius(v[18]),
            };
            (matrix, point, [v[19], v[20], v[21], v[22], v[23], v[24], v[25]])
        })
        .collect()
}

fn cores() -> Vec<Row> {
    let reference = "independent Python, water by iapws";
    let mut whole = Tally::new("conductance of a radiator core", reference, "%", 0.2);
    let mut share = Tally::new("its air-side share of the resistance", reference, "", 0.002);
    let mut numbers = Tally::new("its Reynolds numbers and fin efficiency", reference, "%", 1.0);
    for (matrix, point, [air, tube, efficiency, _, _, conductance, air_share]) in tabled() {
        let found = matrix.conductance(&point, &exact(), &mut Silent).unwrap();
        whole.relative(found.conductance.likely.base(), conductance);
        share.difference(found.air_share.base(), air_share);
        numbers.relative(found.air_reynolds.base(), air);
        numbers.relative(found.tube_reynolds.base(), tube);
        numbers.relative(found.fin_efficiency.base(), efficiency);
    }
    vec![whole.row(), share.row(), numbers.row()]
}

fn fans() -> Row {
    let table = "radiator_fans.csv";
    let mut tally = Tally::new("air flow of a fan on a core", "scipy brentq", "%", 1e-5);
    let heads =
        ["stall", "free", "count", "area", "drawn", "pressure", "exponent", "turn", "density", "flow", "face_velocity"];
    let columns = heads.map(|heading| column(table, heading));
    for row in 0..columns[0].len() {
        let v: Vec<f64> = columns.iter().map(|column| column[row].unwrap()).collect();
        let points = [FanPoint { flow: of(0.0), pressure: of(v[0]) }, FanPoint { flow: of(v[1]), pressure: of(0.0) }];
        let fitting = FanFitting {
            curve: FanCurve::new(&points, v[2] as u32).unwrap(),
            face: of(v[3]),
            drawn: of(v[4]),
            resistance: CoreResistance { pressure: of(v[5]), at: of(5.0), exponent: of(v[6]) },
        };
        let found = fitting.operate(of(v[7]), of(v[8]), &mut Silent).unwrap();
        tally.relative(found.flow.base(), v[9]);
        tally.relative(found.face_velocity.base(), v[10]);
    }
    tally.row()
}

/// A radiator made of a core carries at its point what the core says, and its working ends in it.
#[test]
fn the_radiator_of_a_core_has_its_conductance() {
    for (matrix, point, _) in tabled() {
        let mut working = Writing::default();
        let found = matrix.conductance(&point, &exact(), &mut working).unwrap();
        let [_, radiator, _] = &found.radiators;
        let duty = RadiatorDuty {
            mix: point.mix,
            coolant_temperature: point.coolant_temperature,
            coolant_flow: point.coolant_flow,
            air_temperature: point.air_temperature,
            air_pressure: point.air_pressure,
            face_velocity: point.face_velocity,
        };
        let carried = radiator.heat(&duty, &mut Silent).unwrap();
        assert!((carried.conductance.base() / found.conductance.likely.base() - 1.0).abs() < 1e-9);
        // Away from the point the scaling follows the core itself within a few per cent, unless the flow between plain fins
        // turns turbulent.
        let bends = matrix.fin == Fin::Plain && found.air_reynolds.base() > 1500.0;
        for by in [0.6, 1.5].into_iter().filter(|_| !bends) {
            let away = MatrixPoint { face_velocity: of(point.face_velocity.base() * by), ..point };
            let Ok(expected) = matrix.conductance(&away, &exact(), &mut Silent) else { continue };
            let duty = RadiatorDuty { face_velocity: away.face_velocity, ..duty };
            let scaled = radiator.heat(&duty, &mut Silent).unwrap().conductance.base();
            assert!((scaled / expected.conductance.likely.base() - 1.0).abs() < 0.05, "{scaled}");
        }
        let steps: Vec<_> = working.chapters.iter().flat_map(|chapter| &chapter.steps).collect();
        assert_eq!(steps.last().unwrap().result.base, found.conductance.likely.base());
        let factor = if matrix.fin == Fin::Plain { "Nu" } else { "j" };
        for symbol in ["N", "A_a", "σ", factor, "η", "1/R_a", "Re_c", "Nu", "1/R_c", "r"] {
            assert!(steps.iter().any(|step| step.symbol == symbol), "no step for {symbol}");
        }
    }
}

/// Off its point in flow, coolant and temperature a core's radiator still has what the core itself has there, from laminar to
/// turbulent: half a power of the flow too much is a tenth of the heat at full throttle.
#[test]
fn the_radiator_of_a_core_follows_it_from_laminar_to_turbulent() {
    let glycol = Mix::new(Base::EthyleneGlycol, of(0.5), Basis::ByVolume).unwrap();
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    for (matrix, point, _) in tabled() {
        let point = MatrixPoint { mix: glycol, coolant_temperature: celsius(90.0), ..point };
        let [_, radiator, _] = matrix.conductance(&point, &exact(), &mut Silent).unwrap().radiators;
        for (by, celsius_then) in [(0.15, 85.0), (0.5, 100.0), (1.6, 90.0), (2.2, 110.0), (5.0, 90.0)] {
            let flow = of(point.coolant_flow.base() * by);
            let away = MatrixPoint { coolant_flow: flow, coolant_temperature: celsius(celsius_then), ..point };
            let expected = matrix.conductance(&away, &exact(), &mut Silent).unwrap();
            let duty = RadiatorDuty {
                mix: glycol,
                coolant_temperature: away.coolant_temperature,
                coolant_flow: flow,
                air_temperature: point.air_temperature,
                air_pressure: point.air_pressure,
                face_velocity: point.face_velocity,
            };
            let mut working = Writing::default();
            let found = radiator.heat(&duty, &mut working).unwrap();
            // The wall's small part of the resistance is counted to the coolant's side.
            let ratio = found.conductance.base() / expected.conductance.likely.base();
            assert!((ratio - 1.0).abs() < 0.02, "{by}: {ratio}");
            assert!(found.notes.is_empty(), "{:?}", found.notes);
            let reynolds = expected.tube_reynolds.base();
            (least, most) = (least.min(reynolds), most.max(reynolds));
            let steps: Vec<_> = working.chapters.iter().flat_map(|chapter| &chapter.steps).collect();
            assert!(steps.iter().any(|step| step.symbol == "f" && step.equation.contains("Nu")));
        }
    }
    assert!(least < LAMINAR_END && most > TURBULENT_FROM, "{least} {most}");
}

/// Common practice, no source: 5.5 to 8 kW/K for each square metre of a two-row aluminium core at 5 m/s.
#[test]
fn a_usual_core_has_a_usual_conductance() {
    let (matrix, point, _) = tabled().remove(0);
    let per_area =
        matrix.conductance(&point, &exact(), &mut Silent).unwrap().conductance.likely.base() / matrix.face().base();
    assert!((5500.0..=8500.0).contains(&per_area), "{per_area}");
}

/// Outside 100 to 3000 the correlation of louvred fins is no answer, and says so.
#[test]
fn louvres_outside_their_range_are_refused() {
    let (matrix, point, _) = tabled().remove(0);
    let Fin::Louvred(louvres) = matrix.fin else { panic!() };
    for re in [99.0, 3001.0, f64::NAN] {
        let error = louvred_j_factor(&matrix, &louvres, of(re), &mut Silent).unwrap_err();
        assert!(error.to_string().contains("louvre pitch"), "{error}");
    }
    let slow = MatrixPoint { face_velocity: of(0.9), ..point };
    assert!(matrix.conductance(&slow, &exact(), &mut Silent).is_err());
    let plain = Matrix { fin: Fin::Plain, ..matrix };
    let plain = plain.conductance(&slow, &exact(), &mut Silent).unwrap();
    assert!(plain.conductance.likely.base() > 0.0);
}

/// Louvres carry about twice what plain fins of the same sizes do (common practice, no source).
#[test]
fn louvres_are_worth_their_cuts() {
    let (matrix, point, _) = tabled().remove(0);
    let air_side = |fin| {
        let found = Matrix { fin, ..matrix }.conductance(&point, &exact(), &mut Silent).unwrap();
        found.conductance.likely.base() / found.air_share.base()
    };
    let gain = air_side(matrix.fin) / air_side(Fin::Plain);
    assert!((1.3..3.0).contains(&gain), "{gain}");
}

/// A half open thermostat that makes up 30 % of the loop's resistance lets 72.5 % pass: 1/√(1 + 0.3·3), by hand.
#[test]
fn a_half_open_thermostat_lets_more_than_half_pass() {
    let at = |share: f64, opening: f64| {
        let thermostat = Thermostat { set_point: celsius(82.0), span: of(12.0), resistance_share: of(share) };
        thermostat.passed(of(opening), &mut Silent).unwrap().base()
    };
    assert!((at(0.3, 0.5) - 0.725_476).abs() < 1e-6);
    assert_eq!((at(1.0, 0.37), at(0.3, 0.0), at(0.3, 1.0)), (0.37, 0.0, 1.0));
}
