//! To come.
use crate::car::*;
use coldmark::quantity::Measured;
#[test]
fn look() {
    let mut lumps = v8();
    lumps.fan_switch = Some((coldmark::quantity::celsius(97.0), coldmark::quantity::celsius(92.0)));
    let mut day = vec![(drives(120.0, 20.0, 0.0, 900.0), heats(9e3, 0.5e3))];
    for i in 0..600 {
        let s = (f64::from(i) * 0.3).sin();
        day.push((drives(3.0, 20.0, 12.0 + 10.0 * s, 2000.0 + 800.0 * s), heats(25e3 + 15e3 * s, 2e3)));
    }
    day.push((drives(3600.0, 25.0, 30.0, 3000.0), heats(50e3, 4e3)));
    day.push((drives(1200.0, 35.0, 15.0, 3800.0), heats(75e3, 6e3)));
    day.push((stands(1800.0, 35.0, 0.0), heats(0.0, 0.0)));
    day.push((drives(600.0, 35.0, 0.0, 800.0), heats(9e3, 0.5e3)));
    day.push((stands(30000.0, 25.0, 0.0), heats(0.0, 0.0)));
    let t = std::time::Instant::now();
    let drive = follow(&lumps, &day, 10.0);
    eprintln!("{:?} {:?}", t.elapsed(), drive.closures);
    for e in &drive.events {
        eprintln!("{:.1} {:?}", e.time.base(), e.kind);
    }
    for s in &drive.soaks {
        eprintln!("{s:?}");
    }
    for e in &drive.extremes {
        let s = &drive.samples[e.sample];
        eprintln!(
            "{:?} at {:.0}: {:.1} metal {:.1} oil {:.1} p {:.0} tank {:.3} margin {:.1}",
            e.of,
            s.time.base(),
            s.coolant.base() - 273.15,
            s.metal.base() - 273.15,
            s.oil.base() - 273.15,
            s.gauge.base(),
            s.in_tank.base() * 1e3,
            s.margin.base()
        );
    }
    for s in drive.samples.iter().step_by(30) {
        eprintln!(
            "{:.0} Te {:.1} Tm {:.1} Tr {:.1} Tx {:.1} To {:.1} Tb {:.1} s {:.2} p {:.1} tank {:.3} L T {:.1} air {:.0} mL {:?}",
            s.time.base(),
            s.coolant.base() - 273.15,
            s.metal.base() - 273.15,
            s.radiator_outlet.base() - 273.15,
            s.hoses.base() - 273.15,
            s.oil.base() - 273.15,
            s.block.base() - 273.15,
            s.opening.base(),
            s.gauge.base() / 1e3,
            s.in_tank.base() * 1e3,
            s.tank.base() - 273.15,
            s.air_in_system.base() * 1e6,
            s.cap
        );
    }
}
