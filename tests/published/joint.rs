//! Published checks: the valve-cover joint.
//!
//! References: limits of size recomputed here from the tolerance formulas of ASME B1.1 (read in a public secondary copy)
//! and ISO 965-1 (from memory; the 6g limits of M5 and M6 agree with a public table of that standard); shear areas,
//! strip loads and single numbers computed independently. The 2B limits of 10-24, 1/4-20 and 5/16-18 also agree with a
//! public table of UNC internal threads. Facts of the trade are common practice, no source.

use crate::accuracy::{Row, Tally, column, table};
use coldmark::crankcase::joint::figures::{oil_density, steel_modulus, times_by_pressure};
use coldmark::crankcase::joint::{
    Bar, Cause, Contact, Engagement, Flange, FlangeMaterial, GasketMaterial, Hole, Layer, LeakCause, Observation,
    ParentMaterial, Reach, ScrewGrade, ScrewStrength, SlotFlow, Spot, Stack, Thread, ThreadStandard, Trial, clamp_load,
    engagement_for_screw_to_break, leak_cause, screw_stiffness, slot_flow, strip_load, torque_for, trial,
};
use coldmark::quantity::si::{Area, Force, Length, Pressure, Torque};
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, Stiffness, celsius, pascals};
use coldmark::scribe::Silent;

const AREAS: &str = "crank_thread_areas.csv";
const STRIP: &str = "crank_thread_strip.csv";
const INDEPENDENT: &str = "FED-STD-H28/2B form, computed independently";

fn of<Q: Measured>(base: f64) -> Q {
    Q::from_base(base)
}

fn exact<Q: Measured>(base: f64) -> Estimate<Q> {
    Estimate::exact(of(base))
}

fn mm(value: f64) -> Length {
    of(value * 1e-3)
}

fn numbers(name: &str, heading: &str) -> Vec<f64> {
    column(name, heading).into_iter().map(|value| value.unwrap()).collect()
}

fn thread(name: &str) -> &'static Thread {
    let name = name.replace('x', "×");
    Thread::ALL.into_iter().find(|thread| thread.name == name).unwrap_or_else(|| panic!("no thread {name}"))
}

/// The screw of the tables: 830 MPa with a quarter on top, 580 MPa proof.
fn table_screw() -> ScrewStrength {
    ScrewStrength { tensile: exact(830e6), proof: exact(580e6), over: exact(1.25), shear_share: exact(0.577) }
}

fn areas() -> Vec<Row> {
    let mut limits = Tally::new("thread limits in use", "crank_thread_areas.csv", "%", 1e-4);
    let mut areas = Tally::new("thread stress and shear areas", INDEPENDENT, "%", 1e-4);
    let mut holes = Tally::new("hole and shear area for a wire thread insert", INDEPENDENT, "%", 1e-4);
    let get = |heading: &str| numbers(AREAS, heading);
    let columns = ["D_mm", "P_mm", "Ds_min_mm", "Es_min_mm", "En_max_mm", "Kn_max_mm"].map(get);
    let (stress, hole, screw) = (get("At_mm2"), get("ASn_per_mm_mm2"), get("ASs_per_mm_mm2"));
    let (major, pitch, insert) =
        (get("insert_hole_major_mm"), get("insert_hole_pitch_mm"), get("ASn_insert_per_mm_mm2"));
    let gain = get("insert_gain_like_for_like");
    let against_least = get("insert_gain_vs_minimum_material");
    for (i, record) in table(AREAS).iter().enumerate() {
        let thread = thread(&record[0]);
        let ours = [
            thread.diameter(),
            thread.pitch(),
            thread.screw_major_least(),
            thread.screw_pitch_diameter_least(),
            thread.hole_pitch_diameter_most(),
            thread.hole_minor_most(),
        ];
        for (ours, column) in ours.iter().zip(&columns) {
            limits.relative(ours.base() * 1e3, column[i]);
        }
        let area = |area: Area| area.base() * 1e6;
        areas.relative(area(thread.stress_area(&mut Silent)), stress[i]);
        areas.relative(area(thread.hole_shear_area(Hole::Plain, mm(1.0), &mut Silent).unwrap()), hole[i]);
        areas.relative(area(thread.screw_shear_area(mm(1.0), &mut Silent).unwrap()), screw[i]);
        holes.relative(thread.insert_hole().major.base() * 1e3, major[i]);
        holes.relative(thread.insert_hole().pitch_diameter.base() * 1e3, pitch[i]);
        holes.relative(area(thread.insert_shear_area_basic(mm(1.0)).unwrap()), insert[i]);
        holes.relative(thread.insert_gain().base(), gain[i]);
        let plain = thread.hole_shear_area(Hole::Plain, mm(1.0), &mut Silent).unwrap();
        holes.relative(thread.insert_shear_area_basic(mm(1.0)).unwrap().base() / plain.base(), against_least[i]);
        // What a joint is reckoned with is the plain area times that gain, not the basic area.
        holes
            .relative(area(thread.hole_shear_area(Hole::WireInsert, mm(1.0), &mut Silent).unwrap()), hole[i] * gain[i]);
    }
    vec![limits.row(), areas.row(), holes.row()]
}

fn strips() -> Vec<Row> {
    let mut strip = Tally::new("strip load of a tapped hole", INDEPENDENT, "%", 1e-4);
    let mut insert = Tally::new("strip load round a wire insert, basic sizes", INDEPENDENT, "%", 1e-4);
    let mut torque = Tally::new("torque at half the strip load and at 90 % proof", INDEPENDENT, "%", 1e-4);
    let mut first = Tally::new("engagement at which the screw breaks first", INDEPENDENT, "%", 1e-4);
    let get = |heading: &str| numbers(STRIP, heading);
    let (shear, length, load, insert_load) = (get("tau_MPa"), get("Le_mm"), get("F_strip_N"), get("F_strip_insert_N"));
    let (half, proof, breaks, at_proof) = (
        get("T_at_half_strip_K0.2_Nm"),
        get("F_bolt_90pct_proof_N"),
        get("Le_bolt_breaks_first_mm"),
        get("T_90pct_proof_K0.2_Nm"),
    );
    let screw = table_screw();
    for (i, record) in table(STRIP).iter().enumerate() {
        let thread = thread(&record[0]);
        let parent = exact(shear[i] * 1e6);
        let engaged = Engagement::carrying(mm(length[i])).carries(thread, &mut Silent).unwrap();
        let found = strip_load(thread, Hole::Plain, &parent, &screw, &engaged, &mut Silent).unwrap();
        strip.relative(found.parent.likely.base(), load[i]);
        let basic = thread.insert_shear_area_basic(mm(length[i])).unwrap();
        insert.relative(basic.base() * shear[i] * 1e6, insert_load[i]);
        let torque_of =
            |force: f64| torque_for(of(force), &exact(0.2), thread.diameter(), &mut Silent).unwrap().likely.base();
        torque.relative(torque_of(found.parent.likely.base() / 2.0), half[i]);
        let proof_load = 0.9 * screw.proof.likely.base() * thread.stress_area(&mut Silent).base();
        torque.relative(proof_load, proof[i]);
        torque.relative(torque_of(proof_load), at_proof[i]);
        let needed = engagement_for_screw_to_break(thread, Hole::Plain, &parent, &screw, &mut Silent).unwrap();
        first.relative(needed.likely.base() * 1e3, breaks[i]);
    }
    vec![strip.row(), insert.row(), torque.row(), first.row()]
}

/// The single numbers about the joint, in the order of the table.
fn checks() -> Row {
    let mut checks = Tally::new("cover joint: single numbers", "computed independently", "%", 0.5);
    let records = table("crank_checks.csv");
    let expected = |quantity: &str, inputs: &str| -> f64 {
        let found = records.iter().find(|r| &r[0] == quantity && r[1].contains(inputs));
        found.unwrap_or_else(|| panic!("{quantity} {inputs}")).get(2).unwrap().parse().unwrap()
    };
    let quarter = Thread::QUARTER_20;
    for torque in [5.0, 8.0, 10.0] {
        let load = clamp_load(of::<Torque>(torque), &exact(0.2), quarter.diameter(), &mut Silent).unwrap();
        checks.relative(load.likely.base(), expected("clamp load", &format!("T={torque:.1} ")));
    }
    let (one, two) = (one_gasket(), two_gaskets());
    let stiffness = |stack: &Stack| stack.stiffness(&mut Silent).unwrap().likely;
    checks.relative(stiffness(&one).base(), expected("gasket stiffness, one", ""));
    checks.relative(stiffness(&two).base(), expected("gasket stiffness, two and a spacer", ""));
    let screw = |free: f64| screw_stiffness(quarter, mm(free), &steel_modulus().estimate, &mut Silent).unwrap();
    checks.relative(screw(10.0).likely.base(), expected("bolt stiffness", "free length 10 mm"));
    checks.relative(screw(30.0).likely.base(), expected("bolt stiffness", "free length 30 mm"));
    let loss = |stack: &Stack, screw: &Estimate<Stiffness>| {
        stack.creep_loss(&exact(4000.0), screw, &mut Silent).unwrap().loss.likely.base()
    };
    checks.relative(loss(&one, &screw(10.0)), expected("clamp loss by creep, one", ""));
    checks.relative(loss(&two, &screw(30.0)), expected("clamp loss by creep, two", ""));
    let span = |material, thickness| flange(material, thickness, 60.0).bedding(&one, &mut Silent).unwrap().span;
    checks
        .relative(span(FlangeMaterial::SheetSteel, 1.0).likely.base() * 1e3, expected("flange span pi/beta", "sheet"));
    checks.relative(
        span(FlangeMaterial::CastAluminium, 8.0).likely.base() * 1e3,
        expected("flange span pi/beta", "cast"),
    );
    let dry = Spot { head: mm(0.0), ..Spot::default() };
    checks.relative(oil(&dry, 2000.0) * 3.6e9, expected("slot oil leak", "dp=2kPa"));
    checks.relative(oil(&Spot::default(), 0.0) * 3.6e9, expected("slot oil leak", "head of 10 mm"));
    checks.row()
}

fn oil(spot: &Spot, crankcase: f64) -> f64 {
    match flow(spot, crankcase) {
        SlotFlow::Oil(flow) => flow.base(),
        other => panic!("{other:?}"),
    }
}

fn flow(spot: &Spot, crankcase: f64) -> SlotFlow {
    let ambient = AbsolutePressure::new(pascals(101_325.0));
    slot_flow(spot, of::<GaugePressure>(crankcase), ambient, celsius(20.0), &mut Silent).unwrap()
}

fn flange(material: FlangeMaterial, thickness: f64, spacing: f64) -> Flange {
    Flange { bars: vec![Bar::of(material, mm(15.0), mm(thickness))], spacing: mm(spacing), bed_width: mm(12.0) }
}

fn one_gasket() -> Stack {
    Stack::one(GasketMaterial::CorkRubber, mm(3.0), of(1800e-6))
}

fn two_gaskets() -> Stack {
    let spacer = coldmark::crankcase::joint::SpacerMaterial::Aluminium;
    Stack::two_and_a_spacer(GasketMaterial::CorkRubber, mm(3.0), spacer, mm(12.0), of(1800e-6))
}

/// Limits of a unified thread in ten-thousandths of an inch, ASME B1.1: class 2A tolerance and allowance, class 2B 1.3
/// times, engaged over one diameter; minor diameter of the hole rounded to thousandths.
fn unified_limits(diameter: f64, threads: f64) -> [f64; 4] {
    let pitch = 1.0 / threads;
    let square = (pitch * pitch).cbrt();
    let tenths = |inches: f64| (inches * 1e4).round() as i64;
    // Kept to six places before it is multiplied: 1.3 times 0.003 731 in is 0.0049 in, as the tables print it.
    let tolerance = ((0.0015 * diameter.cbrt() + 0.0015 * diameter.sqrt() + 0.015 * square) * 1e6).round() / 1e6;
    let allowance = tenths(0.3 * tolerance);
    let pitch_diameter = tenths(diameter - 0.649_519_05 * pitch);
    let least_minor = 0.25 * pitch - 0.4 * pitch * pitch;
    let minor_tolerance = if diameter >= 0.25 {
        least_minor
    } else {
        (0.05 * square + 0.03 * pitch / diameter - 0.002).clamp(least_minor, 0.394 * pitch)
    };
    let minor = tenths(diameter - 1.082_531_75 * pitch) + tenths(minor_tolerance);
    [
        tenths(diameter) - allowance - tenths(0.060 * square),
        pitch_diameter - allowance - tenths(tolerance),
        pitch_diameter + tenths(1.3 * tolerance),
        (minor + 5) / 10 * 10,
    ]
    .map(|tenths| tenths as f64 * 1e-4 * 25.4)
}

/// The preferred number of the series R40 next to a value, the larger where two are as near.
fn preferred(value: f64) -> f64 {
    const SERIES: [f64; 41] = [
        1.0, 1.06, 1.12, 1.18, 1.25, 1.32, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2.0, 2.12, 2.24, 2.36, 2.5, 2.65, 2.8, 3.0,
        3.15, 3.35, 3.55, 3.75, 4.0, 4.25, 4.5, 4.75, 5.0, 5.3, 5.6, 6.0, 6.3, 6.7, 7.1, 7.5, 8.0, 8.5, 9.0, 9.5, 10.0,
    ];
    let decade = 10_f64.powf(value.log10().floor());
    let off = |number: f64| (number * decade - value).abs();
    SERIES.into_iter().reduce(|best, next| if off(next) <= off(best) + 1e-9 { next } else { best }).unwrap() * decade
}

/// Limits of a metric thread in mm, ISO 965-1: grade 6 tolerances rounded to R40, deviation g from the standard's table.
fn metric_limits(diameter: f64, pitch: f64) -> [f64; 4] {
    let step = if diameter <= 5.6 { 2.8_f64 * 5.6 } else { 5.6_f64 * 11.2 };
    // The table of deviation g departs from −(15 + 11 P) by up to a micrometre.
    let deviation = match pitch {
        0.8 => 24.0,
        1.0 => 26.0,
        1.25 => 28.0,
        other => panic!("no deviation for {other}"),
    };
    assert!((deviation - (15.0 + 11.0 * pitch)).abs() < 1.0);
    let round = |mm: f64| (mm * 1e3).round() / 1e3;
    let pitch_diameter = round(diameter - 0.649_519_05 * pitch);
    let tolerance = 90.0 * pitch.powf(0.4) * step.sqrt().powf(0.1);
    let minor_tolerance = if pitch < 1.0 { 433.0 * pitch - 190.0 * pitch.powf(1.22) } else { 230.0 * pitch.powf(0.7) };
    [
        diameter - (deviation + preferred(180.0 * pitch.powf(2.0 / 3.0) - 3.15 / pitch.sqrt())) * 1e-3,
        pitch_diameter - (deviation + preferred(tolerance)) * 1e-3,
        pitch_diameter + preferred(1.32 * tolerance) * 1e-3,
        round(diameter - 1.082_531_75 * pitch) + preferred(minor_tolerance) * 1e-3,
    ]
}

fn standards() -> Vec<Row> {
    let reference = |standard| match standard {
        ThreadStandard::Unified => ("limits of unified threads, 2A/2B", "ASME B1.1 tolerance formulas"),
        ThreadStandard::Metric => ("limits of metric threads, 6g/6H", "ISO 965-1 tolerance formulas (from memory)"),
    };
    [ThreadStandard::Unified, ThreadStandard::Metric]
        .into_iter()
        .map(|standard| {
            let (quantity, source) = reference(standard);
            let mut tally = Tally::new(quantity, source, "mm", 1e-9);
            for thread in Thread::ALL.into_iter().filter(|thread| thread.standard == standard) {
                let (diameter, pitch) = (thread.diameter().base() * 1e3, thread.pitch().base() * 1e3);
                let expected = match standard {
                    ThreadStandard::Unified => unified_limits(diameter / 25.4, (25.4 / pitch).round()),
                    ThreadStandard::Metric => metric_limits(diameter, (pitch * 1e6).round() / 1e6),
                };
                let ours = [
                    thread.screw_major_least(),
                    thread.screw_pitch_diameter_least(),
                    thread.hole_pitch_diameter_most(),
                    thread.hole_minor_most(),
                ];
                for (ours, expected) in ours.iter().zip(expected) {
                    tally.difference(ours.base() * 1e3, expected);
                }
            }
            tally.row()
        })
        .collect()
}

/// Screws `π/β` apart: the sums of the long beam close to `1/cosh(π/2)` half-way and `tanh(π/2)` at the screw, so half-way
/// is pressed by `1/sinh(π/2)`, 43 %, of what the screw is.
fn rule_of_spacing() -> Row {
    let mut tally = Tally::new("pressing half-way between screws π/β apart", "closed sums of the long beam", "%", 1e-6);
    let mut at_rule = flange(FlangeMaterial::SheetSteel, 1.0, 50.0);
    at_rule.bars[0].modulus = exact(205e9);
    let mut stack = one_gasket();
    stack.layers[0].modulus = exact(6e6);
    at_rule.spacing = at_rule.bedding(&stack, &mut Silent).unwrap().span.likely;
    let bedding = at_rule.bedding(&stack, &mut Silent).unwrap();
    let half = std::f64::consts::FRAC_PI_2;
    tally.relative(bedding.midspan.likely.base() / bedding.at_screw.likely.base(), 1.0 / half.sinh());
    tally.row()
}

pub fn accuracy() -> Vec<Row> {
    let mut rows = standards();
    rows.extend(areas());
    rows.extend(strips());
    rows.push(checks());
    rows.push(rule_of_spacing());
    rows
}

/// Common practice, no source: screws of 1/4-20 strip sooner in an aluminium head than in cast iron, and a wire thread
/// insert restores and slightly betters the thread.
#[test]
fn aluminium_strips_before_iron_and_an_insert_betters_it() {
    let quarter = Thread::QUARTER_20;
    let engaged = Engagement::carrying(mm(10.0)).carries(quarter, &mut Silent).unwrap();
    let screw = ScrewGrade::Grade5.strength();
    let load = |material: ParentMaterial, hole| {
        let parent = material.shear_strength().estimate;
        strip_load(quarter, hole, &parent, &screw, &engaged, &mut Silent).unwrap().parent
    };
    let aluminium = load(ParentMaterial::CastAluminium, Hole::Plain);
    let iron = load(ParentMaterial::GreyIron, Hole::Plain);
    // Even good aluminium strips before poor iron.
    assert!(aluminium.high.base() < iron.low.base());
    let insert = load(ParentMaterial::CastAluminium, Hole::WireInsert);
    let gain = insert.likely.base() / aluminium.likely.base();
    assert!((1.2..1.27).contains(&gain), "{gain}");
    // The rule of engagement: about two diameters in aluminium, one to one and a quarter in iron.
    let diameters = |material: ParentMaterial| {
        let parent = material.shear_strength().estimate;
        let length = engagement_for_screw_to_break(quarter, Hole::Plain, &parent, &screw, &mut Silent).unwrap();
        [length.likely, length.high].map(|length| length.base() / quarter.diameter().base())
    };
    let [_, weak] = diameters(ParentMaterial::CastAluminium);
    let [usual, worst] = diameters(ParentMaterial::GreyIron);
    assert!((2.0..2.4).contains(&weak) && (0.8..1.25).contains(&usual) && (1.0..1.3).contains(&worst));
}

/// Common practice, no source: two gaskets with a spacer compress further for the same clamp and invite over-tightening.
#[test]
fn two_gaskets_travel_further_and_lose_the_same_load() {
    let (one, two) = (one_gasket(), two_gaskets());
    let clamp = exact::<Force>(4000.0);
    let travel = |stack: &Stack| stack.travel(&clamp, &mut Silent).unwrap().travel.likely.base();
    assert!((travel(&two) / travel(&one) - 2.0).abs() < 1e-3);
    assert!((travel(&one) - 1.11e-3).abs() < 0.01e-3);
    assert_eq!((one.leak_faces(), two.leak_faces()), (2, 4));
    let screw =
        |free: f64| screw_stiffness(Thread::QUARTER_20, mm(free), &steel_modulus().estimate, &mut Silent).unwrap();
    let lost = |stack: &Stack, free| stack.creep_loss(&clamp, &screw(free), &mut Silent).unwrap().share.likely.base();
    assert!((lost(&two, 30.0) / lost(&one, 10.0) - 1.0).abs() < 0.01);
    assert!((lost(&one, 10.0) - 0.134).abs() < 0.001);
    // The same screw reaches less far through the second gasket and the spacer.
    let reach = |grip: f64| Reach { screw: mm(30.0), grip: mm(grip), depth: mm(20.0) }.length(&mut Silent);
    assert!(reach(14.0).unwrap().base() > reach(29.0).unwrap().base());
    assert!(reach(31.0).is_err() && reach(5.0).is_err());
}

/// Common practice, no source: a cover leak that stops when the crankcase goes from a few inches of water positive to
/// slightly negative was pressure; one that goes on was the joint.
#[test]
fn a_leak_that_stops_below_zero_was_pressure() {
    let inches = |inches: f64| of::<GaugePressure>(inches * 249.088_91);
    let judge = |spot: &Spot, pressure| -> LeakCause {
        leak_cause(spot, pressure, &times_by_pressure().estimate, &mut Silent).unwrap()
    };
    let spot = Spot::default();
    let before = judge(&spot, inches(4.0));
    assert_eq!(before.cause, Cause::Ventilation);
    assert!(oil(&spot, 4.0 * 249.088_91) > 10.0 * oil(&spot, 0.0));
    // Slightly negative: air is drawn in, oil no longer comes out.
    assert_eq!(judge(&spot, inches(-0.5)).cause, Cause::DrawsAir);
    assert!(matches!(flow(&spot, -0.5 * 249.088_91), SlotFlow::Air(_)));
    let look = |pressure, leaks| Observation { crankcase: inches(pressure), leaks };
    let tried = |before: &Observation, after: &Observation| trial(&spot, before, after, &times_by_pressure().estimate);
    assert_eq!(tried(&look(4.0, true), &look(-0.5, false)).unwrap(), Trial::Pressure);
    assert_eq!(tried(&look(4.0, true), &look(-0.5, true)).unwrap(), Trial::Joint);
    assert_eq!(tried(&look(4.0, true), &look(0.5, true)).unwrap(), Trial::Undecided);
    assert_eq!(tried(&look(4.0, false), &look(-0.5, true)).unwrap(), Trial::Elsewhere);
    assert!(tried(&look(-1.0, true), &look(0.0, true)).is_err());
    // What leaks below the air outside already was not pressed out, though a deeper depression hides it.
    assert_eq!(tried(&look(-0.1, true), &look(-4.0, false)).unwrap(), Trial::Joint);
    // 10 mm of oil press with a third of an inch of water: half an inch more is not three times that.
    assert_eq!(tried(&look(0.5, true), &look(-0.5, false)).unwrap(), Trial::Masked);
    assert_eq!(tried(&look(0.5, true), &look(0.0, false)).unwrap(), Trial::Pressure);
    // A spot under a deep pool goes on at a slightly negative pressure: the joint.
    let deep = Spot { head: mm(40.0), ..spot };
    assert_eq!(judge(&deep, inches(-0.5)).cause, Cause::Joint);
    assert!(oil(&deep, -0.5 * 249.088_91) > 0.0);
}

/// The leak with 2 kPa against the leak by 10 mm of oil alone: 24 times.
#[test]
fn pressure_counts_far_more_than_a_little_oil() {
    let spot = Spot { density: oil_density().likely(), ..Spot::default() };
    let dry = Spot { head: mm(0.0), ..spot };
    let times = oil(&dry, 2000.0) / oil(&spot, 0.0);
    assert!((times - 24.0).abs() < 0.05, "{times}");
}

/// A sheet cover with its screws far apart lifts between them, a cast one does not.
#[test]
fn sheet_covers_need_spreaders_where_cast_ones_do_not() {
    let stack = one_gasket();
    let contact = |flange: &Flange| flange.bedding(&stack, &mut Silent).unwrap().contact;
    assert_eq!(contact(&flange(FlangeMaterial::SheetSteel, 1.0, 120.0)), Contact::Lost);
    assert_eq!(contact(&flange(FlangeMaterial::CastAluminium, 8.0, 120.0)), Contact::Kept);
    let mut spread = flange(FlangeMaterial::SheetSteel, 1.0, 120.0);
    spread.bars.push(Bar::of(FlangeMaterial::SheetSteel, mm(15.0), mm(5.0)));
    assert_eq!(contact(&spread), Contact::Kept);
}

/// The usual figures of rubber stand for a layer too.
#[test]
fn the_strictest_gasket_of_a_stack_counts() {
    let mut stack = one_gasket();
    stack.layers.push(Layer::gasket(GasketMaterial::Rubber, mm(3.0)));
    let (seating, crush) = stack.limits().unwrap();
    let usual = |stress: Estimate<Pressure>| stress.likely.base() / 1e6;
    assert_eq!(usual(seating), 2.0);
    assert_eq!(usual(crush), 7.0);
}
