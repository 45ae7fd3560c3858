//! The assumed figures of the ventilation: each a default with its spread, its range and its source.

use super::breather::{INERTIAL, LINEAR_SHARE, LOADING, VISCOUS};
use super::check::{LEAK, OPENING};
use super::hose::{LOSS, ROUGHNESS};
use super::mesh;
use super::orifice::{self, BORE};
use super::plunger;
use crate::quantity::si::{Area, Length, Pressure, Ratio};
use crate::quantity::{Kind, LinearResistance, QuadraticResistance, Range};
use crate::source::assumed;
use crate::source::crankcase::ventilation::{
    BACKFIRE_TIGHT, CYLINDER_DRAG, DISCHARGE, FILTER_LOADING, FITTINGS, MESH_FIGURES, VENTILATION_DEFAULTS,
};

assumed! {
    /// Discharge coefficient of a sharp-edged hole.
    sharp_discharge: Ratio = [0.60, 0.62, 0.65], orifice::DISCHARGE, DISCHARGE;
    /// Discharge coefficient of a short tube, such as a barb.
    barb_discharge: Ratio = [0.75, 0.80, 0.85], orifice::DISCHARGE, DISCHARGE;
    /// Discharge coefficient of a rounded hole.
    rounded_discharge: Ratio = [0.95, 0.97, 0.98], orifice::DISCHARGE, DISCHARGE;
    /// Effective area of the passages and the baffle between the crankcase and one cover.
    baffle_area: Area = [30e-6, 60e-6, 100e-6],
        Range::new("effective area of the baffle", Kind::SmallArea, 0.0, 1e-2, "its open area times about 0.6"), VENTILATION_DEFAULTS;
    /// The same between the crankcase and an outlet in the valley between the banks.
    valley_baffle_area: Area = [60e-6, 150e-6, 300e-6],
        Range::new("effective area of the baffle", Kind::SmallArea, 0.0, 1e-2, "its open area times about 0.6"), VENTILATION_DEFAULTS;
    /// The same between the crankcase and an outlet in the side of the block or the sump.
    sump_baffle_area: Area = [100e-6, 250e-6, 500e-6],
        Range::new("effective area of the baffle", Kind::SmallArea, 0.0, 1e-2, "its open area times about 0.6"), VENTILATION_DEFAULTS;
    /// Roughness of a rubber hose.
    hose_roughness: Length = [1e-6, 10e-6, 50e-6], ROUGHNESS, VENTILATION_DEFAULTS;
    /// Loss coefficient of a hose's entrance.
    entrance_loss: Ratio = [0.5, 0.5, 0.57], LOSS, FITTINGS;
    /// Loss coefficient of a hose's exit.
    exit_loss: Ratio = [1.0, 1.0, 1.0], LOSS, FITTINGS;
    /// Loss coefficient of one bend.
    bend_loss: Ratio = [0.2, 0.3, 1.2], LOSS, FITTINGS;
    /// Loss coefficient of one bend of 45°, about two thirds of one of 90°.
    half_bend_loss: Ratio = [0.15, 0.2, 0.4], LOSS, FITTINGS;
    /// Loss coefficient of one sharp elbow of 90°, a fitting turned from the solid or cast.
    elbow_loss: Ratio = [0.9, 1.2, 1.5], LOSS, FITTINGS;
    /// Share of the pressure of a small filter that goes with the flow itself, at the one point measured.
    linear_share: Ratio = [0.1, 0.4, 0.9], LINEAR_SHARE, FILTER_LOADING;
    /// Pressure of a filter in use over that of the clean one, at the same flow.
    filter_loading: Ratio = [1.0, 1.0, 5.0], LOADING, FILTER_LOADING;
    /// Surface of the wires in a volume of knitted mesh, 1/m.
    mesh_surface: Ratio = [145.0, 280.0, 480.0], mesh::SURFACE, MESH_FIGURES;
    /// Diameter of the wires of knitted mesh.
    mesh_wire: Length = [0.1e-3, 0.28e-3, 0.3e-3], mesh::WIRE, MESH_FIGURES;
    /// Drag coefficient of a wire across the flow at high Reynolds numbers.
    mesh_inertial_drag: Ratio = [1.2, 1.8, 2.5], mesh::DRAG, CYLINDER_DRAG;
    /// Drag coefficient of a wire across the flow times its Reynolds number, at low ones.
    mesh_viscous_drag: Ratio = [8.0, 10.0, 14.0], mesh::DRAG, CYLINDER_DRAG;
    /// Pressure of a mesh that holds oil over that of the dry one.
    mesh_soaked: Ratio = [1.0, 1.5, 4.0], mesh::SOAKED, MESH_FIGURES;
    /// Viscous coefficient of a small breather filter; high when oiled or dirty.
    breather_viscous: LinearResistance = [2e5, 2e5, 1e6], VISCOUS, VENTILATION_DEFAULTS;
    /// Inertial coefficient of a small breather filter; high when oiled or dirty.
    breather_inertial: QuadraticResistance = [3e8, 3e8, 1.5e9], INERTIAL, VENTILATION_DEFAULTS;
    /// Effective area of a plunger valve at light depression: for 1.3 L, 2.0 L and 5.0 L engines.
    plunger_open_area: Area = [6e-6, 8e-6, 12e-6], plunger::AREA, VENTILATION_DEFAULTS;
    /// Effective area of a plunger valve at idle depression: for 1.3 L, 2.0 L and 5.0 L engines.
    plunger_idle_area: Area = [1.8e-6, 2.2e-6, 4e-6], plunger::AREA, VENTILATION_DEFAULTS;
    /// Depression at which a plunger starts to reduce the opening.
    plunger_starts_reducing: Pressure = [4e3, 8e3, 15e3], plunger::DEPRESSION, VENTILATION_DEFAULTS;
    /// Depression at which a plunger has reduced the opening to its idle area.
    plunger_fully_reduced: Pressure = [35e3, 50e3, 60e3], plunger::DEPRESSION, VENTILATION_DEFAULTS;
    /// Effective area of a seated plunger on backfire.
    back_opening: Area = [0.0, 1e-10, 1e-8], plunger::BACK, VENTILATION_DEFAULTS;
    /// Discharge coefficient of the ring between plunger and seat.
    annulus_discharge: Ratio = [0.6, 0.7, 0.8], orifice::DISCHARGE, VENTILATION_DEFAULTS;
    /// Opening against a backfire up to which a valve is called shut.
    backfire_tight: Area = [1e-8, 1e-7, 5e-7], plunger::BACK, BACKFIRE_TIGHT;
    /// Bore of a fixed-orifice valve.
    fixed_orifice_bore: Length = [1.5e-3, 2.2e-3, 3e-3], BORE, VENTILATION_DEFAULTS;
    /// Leak of a closed check valve, as an effective area.
    seat_leak: Area = [0.0, 1e-10, 1e-8], LEAK, VENTILATION_DEFAULTS;
    /// Opening pressure of a check valve.
    check_opening_pressure: Pressure = [0.0, 200.0, 1000.0], OPENING, VENTILATION_DEFAULTS;
    /// Loss where a hose enters a catch can, on the hose's velocity, beyond the hose's own exit.
    can_inlet_loss: Ratio = [0.0, 1.0, 2.0], LOSS, VENTILATION_DEFAULTS;
    /// Loss where gas leaves a catch can, on the velocity in the outlet.
    can_outlet_loss: Ratio = [0.3, 0.5, 1.0], LOSS, VENTILATION_DEFAULTS;
}
