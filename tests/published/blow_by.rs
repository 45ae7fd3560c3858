//! Published checks: blow_by.
//!
//! References: an independent integration of the same cylinder equations by an explicit method of order eight with
//! relative tolerance 1e-11, leak integrals by adaptive quadrature to 1e-9, root finding and a stiff solver for the
//! volume between the rings (scipy); closed forms for the leak-down test. The figures they start from are assumptions of
//! this program, so the tables check the computation, not the engines.

use crate::accuracy::{Row, Tally, column, table};
use coldmark::crankcase::blow_by::{
    Condition, Counted, InterRing, LeakDownTest, RingPackFigures, RulesOfThumb, area_from_flow, assumed_readings,
    from_condition, from_leak_down, from_ring_pack, hot_gaps, mass_flow, standard_volume_flow, through, volume_flow,
};
use coldmark::crankcase::cylinder::{
    Blower, Cycle, Duty, Geometry, LeakPath, Leakage, OperatingPoint, Trace, diesel_figures, trace,
};
use coldmark::quantity::si::{Angle, AngularVelocity, Length, MassRate, Power, Ratio, ThermodynamicTemperature};
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, celsius, pascals};
use coldmark::scribe::{Silent, Writing};
use std::collections::HashMap;

const AMBIENT: f64 = 101_325.0;

fn ambient() -> AbsolutePressure {
    AbsolutePressure::new(pascals(AMBIENT))
}

fn numbers(name: &str, heading: &str) -> Vec<f64> {
    column(name, heading).into_iter().map(|value| value.unwrap()).collect()
}

fn degrees(value: f64) -> Angle {
    Angle::from_base(value.to_radians())
}

fn rpm(value: f64) -> AngularVelocity {
    AngularVelocity::from_base(value * std::f64::consts::PI / 30.0)
}

/// One row of the summary table: engine, operating point, and what the reference found.
struct Known {
    engine: String,
    duty: String,
    geometry: Geometry,
    point: OperatingPoint,
    row: usize,
}

impl Known {
    fn trace(&self) -> Trace {
        trace(&self.geometry, &self.point, &Cycle::default(), ambient(), &mut Silent).unwrap()
    }

    fn leakage(&self) -> Leakage {
        self.trace().leakage(&LeakPath::likely(ambient()), &mut Silent).unwrap()
    }
}

const SUMMARY: &str = "crank_trace_summary.csv";

fn summary() -> Vec<Known> {
    let get = |heading: &str| numbers(SUMMARY, heading);
    let (cylinders, bore, stroke, rod, cr) = (get("ncyl"), get("bore_mm"), get("stroke_mm"), get("rod_mm"), get("CR"));
    let (speed, map, ca50, burn) = (get("rpm"), get("MAP_kPa"), get("CA50_deg"), get("burn_deg"));
    let (residual, charge, wall, fired) = (get("x_resid"), get("T_ivc_K"), get("f_wall"), get("fired"));
    let known = |(i, record): (usize, csv::StringRecord)| Known {
        engine: record[0].to_owned(),
        duty: record[1].to_owned(),
        geometry: Geometry {
            bore: Length::from_base(bore[i] * 1e-3),
            stroke: Length::from_base(stroke[i] * 1e-3),
            rod: Length::from_base(rod[i] * 1e-3),
            compression_ratio: Ratio::from_base(cr[i]),
            cylinders: cylinders[i] as u32,
        },
        point: OperatingPoint {
            speed: rpm(speed[i]),
            manifold: AbsolutePressure::from_base(map[i] * 1e3),
            half_burnt: degrees(ca50[i]),
            burn_duration: degrees(burn[i]),
            residual: Ratio::from_base(residual[i]),
            charge_temperature: ThermodynamicTemperature::from_base(charge[i]),
            wall_heat: Ratio::from_base(wall[i]),
            fired: fired[i] == 1.0,
        },
        row: i,
    };
    table(SUMMARY).into_iter().enumerate().map(known).collect()
}

fn one(engine: &str, duty: &str) -> Known {
    summary().into_iter().find(|k| k.engine == engine && k.duty == duty).unwrap()
}

/// Pressure and volume every 5 degrees; peak, trapped mass, air flow, leak integrals.
fn traces() -> Vec<Row> {
    let independent = "same equations, method of order 8 (scipy)";
    let mut pressure = Tally::new("cylinder pressure, every 5° of 15 cycles", independent, "%", 0.1);
    let known = summary();
    let traces: HashMap<_, _> = known.iter().map(|k| ((k.engine.clone(), k.duty.clone()), k.trace())).collect();
    let (angles, pressures) = (numbers("crank_trace.csv", "theta_deg_aTDC"), numbers("crank_trace.csv", "p_kPa"));
    for ((record, angle), expected) in table("crank_trace.csv").iter().zip(angles).zip(pressures) {
        let trace = &traces[&(record[0].to_owned(), record[1].to_owned())];
        let found = trace.points().find(|(at, _)| (at.base().to_degrees() - angle).abs() < 1e-6);
        let (_, computed) = found.unwrap_or_else(|| panic!("{angle}° is not on the grid"));
        pressure.relative(computed.base() / 1e3, expected);
    }
    let mut trapped = Tally::new("trapped mass", independent, "%", 0.01);
    let mut air = Tally::new("air drawn by the engine", independent, "%", 0.01);
    let mut peak = Tally::new("peak cylinder pressure", independent, "%", 0.1);
    let mut at = Tally::new("angle of the peak", independent, "°", 0.06);
    let mut begins = Tally::new("angle at which burning begins", independent, "°", 1e-6);
    let mut volumes = Tally::new("cylinder volume at the dead centres", independent, "%", 1e-6);
    let mut work = Tally::new("work of the closed part of a cycle", "method of order 8 (scipy)", "%", 1.0);
    let mut hottest = Tally::new("highest gas temperature", independent, "%", 0.1);
    let mut opening = Tally::new("pressure at exhaust opening", independent, "%", 0.1);
    let mut forward = Tally::new("leak integral, forward", "same equations, adaptive quadrature (scipy)", "%", 0.1);
    let mut reverse = Tally::new("leak integral, reverse", "same equations, adaptive quadrature (scipy)", "%", 0.3);
    let get = |heading: &str| numbers(SUMMARY, heading);
    let (m, a, p, angle) = (get("m_trap_g"), get("m_air_g_s_engine"), get("p_max_MPa"), get("theta_pmax"));
    let (t, evo) = (get("T_max_K"), get("p_EVO_kPa"));
    let (fwd, rev) = (get("fwd_g_s_per_mm2_CdA_per_cyl"), get("rev_g_s_per_mm2_CdA_per_cyl"));
    for k in &known {
        let (trace, leakage, i) = (k.trace(), k.leakage(), k.row);
        trapped.relative(trace.trapped().base() * 1e3, m[i]);
        air.relative(trace.air_flow().base() * 1e3, a[i]);
        peak.relative(trace.peak().pressure.base() / 1e6, p[i]);
        at.difference(trace.peak().angle.base().to_degrees(), angle[i]);
        hottest.relative(trace.hottest().base(), t[i]);
        opening.relative(trace.at_exhaust_opening().base() / 1e3, evo[i]);
        forward.relative(leakage.forward.base() / 1e3, fwd[i]);
        reverse.relative(leakage.reverse.base() / 1e3, rev[i]);
    }
    let (theta, volume) = (numbers("crank_trace.csv", "theta_deg_aTDC"), numbers("crank_trace.csv", "V_cm3"));
    let (start, closed) = (get("theta0_deg"), get("W_closed_J_per_cyl"));
    for k in &known {
        let mut writing = Writing::default();
        trace(&k.geometry, &k.point, &Cycle::default(), ambient(), &mut writing).unwrap();
        let mut steps = writing.chapters.iter().flat_map(|chapter| &chapter.steps);
        match steps.find(|step| step.symbol == "θ₀") {
            Some(step) => begins.difference(step.result.base.to_degrees(), start[k.row]),
            None => assert!(!k.point.fired, "{} {} does not say when it burns", k.engine, k.duty),
        }
        let (clearance, swept) = (k.geometry.clearance().base() * 1e6, k.geometry.swept().base() * 1e6);
        let mut points = Vec::new();
        for (i, record) in table("crank_trace.csv").iter().enumerate() {
            if record[0] != k.engine || record[1] != k.duty {
                continue;
            }
            match theta[i] {
                0.0 | 360.0 => volumes.relative(clearance, volume[i]),
                180.0 | 540.0 => volumes.relative(clearance + swept, volume[i]),
                _ => {}
            }
            points.push((theta[i], volume[i] * 1e-6));
        }
        work.relative(closed_work(&traces[&(k.engine.clone(), k.duty.clone())], &points), closed[k.row]);
    }
    let all = [pressure, trapped, air, peak, at, begins, volumes, work, hottest, opening, forward, reverse];
    all.into_iter().map(Tally::row).collect()
}

/// ∮ p dV from the closing of the inlet to the opening of the exhaust, J, from volumes in m³ at angles in degrees.
fn closed_work(trace: &Trace, volumes: &[(f64, f64)]) -> f64 {
    let pressures: Vec<f64> = volumes
        .iter()
        .filter_map(|(angle, _)| {
            let found = trace.points().find(|(at, _)| (at.base().to_degrees() - angle).abs() < 1e-6);
            found.map(|(_, pressure)| pressure.base())
        })
        .collect();
    assert_eq!(pressures.len(), volumes.len());
    let both = volumes.iter().zip(&pressures).filter(|((angle, _), _)| *angle <= 130.0).collect::<Vec<_>>();
    both.windows(2).map(|pair| 0.5 * (pair[0].1 + pair[1].1) * (pair[1].0.1 - pair[0].0.1)).sum()
}

/// What changes the forward leak of the invented V8 at full throttle. The wall-heat law is not offered, so its row is not
/// checked here.
fn sensitivity() -> [Row; 2] {
    let mut peaks =
        Tally::new("sensitivity of the peak pressure", "same equations, method of order 8 (scipy)", "%", 0.1);
    let mut tally =
        Tally::new("sensitivity of the leak to the cycle", "same equations, adaptive quadrature (scipy)", "%", 0.2);
    let base = one("V8_5.0", "wot");
    let likely = base.leakage().forward.base();
    let ratio = |change: &dyn Fn(&mut OperatingPoint), path: LeakPath| {
        let mut point = base.point;
        change(&mut point);
        let trace = trace(&base.geometry, &point, &Cycle::default(), ambient(), &mut Silent).unwrap();
        (trace.leakage(&path, &mut Silent).unwrap().forward.base() / likely, trace.peak().pressure.base() / 1e6)
    };
    let path = LeakPath::likely(ambient());
    let cooler = LeakPath { crevice_temperature: ThermodynamicTemperature::from_base(380.0), ..path };
    let hotter = LeakPath { crevice_temperature: ThermodynamicTemperature::from_base(500.0), ..path };
    let lifted = LeakPath { crankcase: AbsolutePressure::from_base(AMBIENT + 5e3), ..path };
    let expected = numbers("crank_trace_sensitivity.csv", "forward_leak_ratio");
    let highest = column("crank_trace_sensitivity.csv", "p_max_MPa");
    let mut checked = 0;
    for ((record, expected), highest) in table("crank_trace_sensitivity.csv").iter().zip(expected).zip(highest) {
        let (computed, peak) = match &record[0] {
            "CA50 20 deg" => ratio(&|p| p.half_burnt = degrees(20.0), path),
            "CA50 5 deg" => ratio(&|p| p.half_burnt = degrees(5.0), path),
            "burn 70 deg" => ratio(&|p| p.burn_duration = degrees(70.0), path),
            "no combustion" => ratio(&|p| p.fired = false, path),
            "T_ivc 370 K" => ratio(&|p| p.charge_temperature = ThermodynamicTemperature::from_base(370.0), path),
            "rpm 2500" => ratio(&|p| p.speed = rpm(2500.0), path),
            "MAP 48.5" => ratio(&|p| p.manifold = AbsolutePressure::from_base(48.5e3), path),
            "crevice gas 380 K" => ratio(&|_| (), cooler),
            "crevice gas 500 K" => ratio(&|_| (), hotter),
            "crankcase at +5 kPa gauge" => ratio(&|_| (), lifted),
            other => {
                assert!(other.starts_with("wall heat by Woschni"), "unknown row {other}");
                continue;
            }
        };
        tally.relative(computed, expected);
        // Blank or nought where the change is in the leak's path and not in the cycle.
        if let Some(highest) = highest.filter(|highest| *highest > 0.0) {
            peaks.relative(peak, highest);
        }
        checked += 1;
    }
    assert_eq!(checked, 10);
    [tally.row(), peaks.row()]
}

fn leak_down() -> Row {
    let mut tally =
        Tally::new("leak-down loss to effective area", "same closed form, second implementation", "%", 0.01);
    let name = "crank_leakdown.csv";
    let (bore, discharge) = (numbers(name, "orifice_mm"), numbers(name, "Cd_orifice"));
    let (supply, loss) = (numbers(name, "supply_gauge_kPa"), numbers(name, "leak_percent"));
    let geometry = Geometry { cylinders: 1, ..one("I4_2.0", "wot").geometry };
    for (i, expected) in numbers(name, "CdA_leak_mm2").into_iter().enumerate() {
        let usual = LeakDownTest::usual(geometry.bore, ambient());
        let test = LeakDownTest {
            restrictor: Length::from_base(bore[i] * 1e-3),
            discharge: Estimate::exact(Ratio::from_base(discharge[i])),
            supply: GaugePressure::from_base(supply[i] * 1e3),
            ..usual
        };
        let readings = [Ratio::from_base(loss[i] / 100.0)];
        let area = from_leak_down(&readings, &geometry, &test, &mut Silent).unwrap();
        tally.relative(area.standing[0].likely.base() * 1e6, expected);
    }
    tally.row()
}

const LEVELS: &str = "crank_blowby_levels.csv";

fn levels() -> Vec<Row> {
    let independent = "same equations, second implementation (scipy)";
    let mut first = Tally::new("blow-by by condition, low, likely, high", independent, "%", 0.5);
    let mut second = Tally::new("blow-by by leak-down, low, likely, high, reverse", independent, "%", 0.5);
    let mut gaps = Tally::new("hot ring gaps, clearances and areas", independent, "%", 0.01);
    let mut third = Tally::new("blow-by by ring gaps, quasi-steady", independent, "%", 0.5);
    let mut stored = Tally::new("blow-by by ring gaps, with storage", "same equations, stiff solver (scipy)", "%", 1.0);
    let mut volume = Tally::new("blow-by as volume at 90 °C and 20 °C", independent, "%", 0.5);
    let mut between_rings = Tally::new("volume between the rings", independent, "%", 0.01);
    let mut shares = Tally::new("levels of knowledge against each other", independent, "%", 1.0);
    let get = |heading: &str| numbers(LEVELS, heading);
    let (space, of_air) = (get("V_inter_cm3"), get("L2_percent_of_air"));
    let against = ["L2_over_L1", "L3q_over_L1", "L3s_over_L1"].map(get);
    let power = get("P_wot_kW_est");
    let one_level = |level: &str| ["low", "likely", "high"].map(|end| get(&format!("L{level}_{end}_g_s")));
    let (l1, l2, l2_reverse) = (one_level("1"), one_level("2"), get("L2_reverse_g_s"));
    let hot = ["g1_hot_mm", "c1_hot_mm", "g2_hot_mm", "c2_hot_mm", "CdA1_mm2", "CdA2_mm2"].map(get);
    let (quasi, storage) = (get("L3_quasi_g_s"), get("L3_storage_g_s"));
    let (warm, standard) = (get("L2_likely_L_min_90C"), get("L2_likely_L_min_std"));
    let path = LeakPath::likely(ambient());
    for (i, record) in table(LEVELS).iter().enumerate() {
        let condition = match &record[1] {
            "run-in" => Condition::RunIn,
            "fresh" => Condition::Fresh,
            "worn" => Condition::Worn,
            other => panic!("unknown condition {other}"),
        };
        let (known, full) = (one(&record[0], &record[2]), one(&record[0], "wot"));
        let (here, leakage) = (known.trace(), known.leakage());

        let power = Power::from_base(power[i] * 1e3);
        let rules = RulesOfThumb::of(condition);
        let flow = from_condition(&rules, full.trace().air_flow(), Some(power), &mut Silent).unwrap();
        let area = area_from_flow(&flow, &full.leakage(), Counted::Forward, &mut Silent).unwrap();
        let by_condition = through(&area, &leakage, &mut Silent).unwrap().forward;
        for (computed, expected) in
            [by_condition.low, by_condition.likely, by_condition.high].into_iter().zip(l1.iter().map(|c| c[i]))
        {
            first.relative(computed.base() * 1e3, expected);
        }

        let readings = assumed_readings(condition, &known.geometry).unwrap();
        let test = LeakDownTest::usual(known.geometry.bore, ambient());
        let area = from_leak_down(&readings, &known.geometry, &test, &mut Silent).unwrap().running;
        let by_test = through(&area, &leakage, &mut Silent).unwrap();
        let forward = by_test.forward;
        for (computed, expected) in [forward.low, forward.likely, forward.high].into_iter().zip(l2.iter().map(|c| c[i]))
        {
            second.relative(computed.base() * 1e3, expected);
        }
        second.relative(by_test.reverse.likely.base() * 1e3, l2_reverse[i]);
        let at_90 = volume_flow(forward.likely, celsius(90.0), ambient()).unwrap();
        volume.relative(at_90.base() * 6e4, warm[i]);
        volume.relative(standard_volume_flow(forward.likely).base() * 6e4, standard[i]);

        let figures = RingPackFigures::of(condition, known.geometry.bore);
        let found = hot_gaps(&figures.likely(), &known.geometry, &mut Silent).unwrap();
        let lengths = [found.top.gap, found.top.clearance, found.second.gap, found.second.clearance];
        for (computed, expected) in lengths.iter().map(|l| l.base() * 1e3).zip(hot.iter().map(|c| c[i])) {
            gaps.relative(computed, expected);
        }
        gaps.relative(found.top.area.base() * 1e6, hot[4][i]);
        gaps.relative(found.second.area.base() * 1e6, hot[5][i]);
        let (steady, _) = from_ring_pack(&figures, &here, &path, None, &mut Silent).unwrap();
        third.relative(steady.forward.likely.base() * 1e3, quasi[i]);
        let between = InterRing::of(known.geometry.bore);
        let (smoothed, _) = from_ring_pack(&figures, &here, &path, Some(&between), &mut Silent).unwrap();
        stored.relative(smoothed.forward.likely.base() * 1e3, storage[i]);
        let volume_between = between.volume(known.geometry.bore, found.top.clearance).unwrap();
        between_rings.relative(volume_between.base() * 1e6, space[i]);
        shares.relative(100.0 * forward.likely.base() / here.air_flow().base(), of_air[i]);
        for (level, expected) in [forward, steady.forward, smoothed.forward].iter().zip(&against) {
            shares.relative(level.likely.base() / by_condition.likely.base(), expected[i]);
        }
    }
    [first, second, gaps, third, stored, volume, between_rings, shares].into_iter().map(Tally::row).collect()
}

/// 1 g/s is 49.83 L/min at 20 °C and 61.73 L/min at 90 °C, both at 101.325 kPa.
#[test]
fn a_gram_a_second_as_volume() {
    let gram = MassRate::from_base(1e-3);
    assert!((standard_volume_flow(gram).base() * 6e4 - 49.83).abs() < 0.005);
    let warm = volume_flow(gram, celsius(90.0), ambient()).unwrap();
    assert!((warm.base() * 6e4 - 61.73).abs() < 0.005);
    assert!((mass_flow(warm, celsius(90.0), ambient()).unwrap().base() / 1e-3 - 1.0).abs() < 1e-14);
}

/// A diesel of 2.0 L at full load: trace, and fuel in one charge.
fn diesel(ratio: f64, manifold: f64, charge: f64, air_fuel: f64) -> (Trace, f64) {
    let geometry = Geometry {
        bore: Length::from_base(0.083),
        stroke: Length::from_base(0.092),
        rod: Length::from_base(0.150),
        compression_ratio: Ratio::from_base(ratio),
        cylinders: 4,
    };
    let usual = diesel_figures(Duty::FullThrottle, ambient()).unwrap().likely();
    let point = OperatingPoint {
        speed: rpm(4000.0),
        manifold: AbsolutePressure::from_base(manifold),
        charge_temperature: ThermodynamicTemperature::from_base(charge),
        ..usual
    };
    let cycle = Cycle { air_fuel: Ratio::from_base(air_fuel), ..Cycle::diesel(Duty::FullThrottle) };
    let trace = trace(&geometry, &point, &cycle, ambient(), &mut Silent).unwrap();
    let fuel = trace.trapped().base() * (1.0 - point.residual.base()) / air_fuel;
    (trace, fuel)
}

/// Work of the closed cylinder and of the strokes to and from the dead centres, J, by the volumes of the slider crank.
fn gross_work(trace: &Trace) -> f64 {
    let geometry = trace.geometry();
    let (throw, rod) = (geometry.stroke.base() / 2.0, geometry.rod.base());
    let volume = |at: f64| {
        let along = (rod * rod - (throw * at.sin()).powi(2)).sqrt();
        geometry.clearance().base() + geometry.piston_area().base() * (throw * (1.0 - at.cos()) + rod - along)
    };
    let points: Vec<(f64, f64)> = trace.points().map(|(at, p)| (at.base(), p.base())).collect();
    let first = points[0];
    // Before the inlet closes the piston moves against the pressure at closing.
    let before = first.1 * (volume(first.0) - volume(-std::f64::consts::PI));
    let closed = points.windows(2).take_while(|pair| pair[1].0 <= std::f64::consts::PI + 1e-9);
    before + closed.map(|pair| 0.5 * (pair[0].1 + pair[1].1) * (volume(pair[1].0) - volume(pair[0].0))).sum::<f64>()
}

/// Handbooks of internal combustion engines, from memory: peak pressure of a road diesel 60 to 90 bar without a blower, 110
/// to 180 bar with a turbocharger; gross indicated efficiency 0.40 to 0.50.
#[test]
fn a_diesels_peak_and_efficiency_are_of_the_size_of_the_handbooks() {
    for (name, (trace, fuel), bars) in [
        ("natural", diesel(21.5, 97.5e3, 340.0, 20.0), 60.0..90.0),
        ("turbocharged", diesel(17.0, 221e3, 375.0, 22.0), 110.0..180.0),
    ] {
        let peak = trace.peak().pressure.base() / 1e5;
        assert!(bars.contains(&peak), "{name}: {peak} bar");
        let at = trace.peak().angle.base().to_degrees();
        assert!((-2.0..20.0).contains(&at), "{name}: {at}°");
        let efficiency = gross_work(&trace) / (fuel * 42.6e6);
        assert!((0.40..0.50).contains(&efficiency), "{name}: {efficiency}");
    }
}

/// Worked by hand: 2^(2/7) = 1.2190; 300 K · 0.2190/0.65 = 101.1 K, and 35 % of it behind a cooler of 65 %.
#[test]
fn a_blower_warms_the_charge_as_worked_by_hand() {
    for (cooler, expected) in [(0.0, 101.08), (0.65, 35.38)] {
        let blower = Blower { efficiency: Ratio::from_base(0.65), cooler: Ratio::from_base(cooler) };
        let pressure = |kilopascals: f64| AbsolutePressure::from_base(kilopascals * 1e3);
        let air = ThermodynamicTemperature::from_base(300.0);
        let rise = blower.rise(pressure(200.0), pressure(100.0), air, &mut Silent).unwrap();
        assert!((rise.base() - expected).abs() < 0.02, "{}", rise.base());
    }
}

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let mut rows = traces();
    rows.extend(sensitivity());
    rows.push(leak_down());
    rows.extend(levels());
    rows
}
