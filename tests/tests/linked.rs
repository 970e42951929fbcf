//! What feeds what: a change in one calculator shows in another by the formula, worked out again here.

use trialfit_core::build::Build;
use trialfit_core::calculators::{bonnet_line, car, clutch, flywheel, front_drive, wiring};
use trialfit_core::plan::Plan;
use trialfit_core::quantity::Value;
use trialfit_core::report::Report;
use trialfit_core::spec::{Id, Place, RowId, Single};
use trialfit_tests::agrees_within;

const BY_HAND: &str = "by hand from the declared inputs";

struct Car {
    plan: Plan,
    build: Build,
    report: Report,
}

impl Car {
    fn demo() -> Self {
        let (plan, build) = (Plan::default(), Build::default());
        let report = Report::new(&build);
        let mut car = Self { plan, build, report };
        car.plan.evaluate(&car.build, &mut car.report);
        car
    }

    /// SI, or a choice's ordinal. Only what hangs on it is worked out again: the link must be known to the plan.
    fn set(&mut self, place: impl Into<Place>, value: f64) {
        let place = place.into();
        self.build.set(place, value).expect("a value in range");
        self.plan.evaluate_after(&self.build, &mut self.report, &[place]);
    }

    fn every(&mut self, column: Id, value: f64) {
        let places: Vec<Place> = self.build.layout().places_of(column).collect();
        places.into_iter().for_each(|place| self.set(place, value));
    }

    fn get<V: Value>(&self, handle: impl Single<V>) -> f64 {
        self.report.of(handle).expect("known").to_cell()
    }

    /// A column's cell.
    fn at(&self, id: Id, row: u16) -> f64 {
        self.report.value(Place { id, row: Some(RowId(row)) }).expect("known")
    }
}

fn per_minute(speed: f64) -> f64 {
    speed * core::f64::consts::TAU / 60.0
}

#[test]
fn engine_torque_takes_from_the_clutchs_margin() {
    let mut car = Car::demo();
    for torque in [180.0, 240.0, 300.0] {
        car.every(car::CURVE_TORQUE.id, torque);
        // z·μ·F·(D + d)/4 over the torque.
        let held = 2.0 * car.get(clutch::FRICTION) * car.get(clutch::CLAMP_LOAD) * (0.228 + 0.150) / 4.0;
        agrees_within(car.get(clutch::MARGIN), held / torque, 1e-12, BY_HAND);
    }
}

#[test]
fn engine_torque_quickens_the_revs() {
    let mut car = Car::demo();
    for torque in [180.0, 240.0, 300.0] {
        car.every(car::CURVE_TORQUE.id, torque);
        // Even torque, 1000 to 6500 min⁻¹: t = J·Δω/M.
        let time = car.get(flywheel::ENGINE_INERTIA) * per_minute(5500.0) / torque;
        agrees_within(car.get(flywheel::REV_TIME), time, 1e-9, BY_HAND);
    }
}

#[test]
fn engine_torque_rolls_it_until_the_tyres_or_the_clutch_give() {
    let mut car = Car::demo();
    let lowest = (1..=5).map(|row| car.at(car::GEAR_RATIO.id, row)).fold(0.0, f64::max);
    let per_newton_metre = 1.0 / (2.0 * 150_000.0 * 0.22 * 0.22);
    // μ·m·g·w·r/i_f.
    let grip = car.get(bonnet_line::GRIP) * car.get(bonnet_line::DRIVEN_SHARE) * 730.0 * 9.806_65 * car.get(car::ROLLING_RADIUS) / 3.9;
    let mut limits = std::collections::BTreeSet::new();
    for torque in [20.0, 60.0, 240.0] {
        car.every(car::CURVE_TORQUE.id, torque);
        let torque = (torque * lowest).min(grip);
        agrees_within(car.get(bonnet_line::ROLL), torque * per_newton_metre, 1e-9, BY_HAND);
        limits.insert(car.get(bonnet_line::ROLL_LIMIT) as u8);
    }
    assert_eq!(limits.len(), 2, "engine and tyres were each the least once");
    // Oil on the facings: μ·z·F·(2/3)(D³ − d³)/(D² − d²)/2 of the clutch, geared.
    car.set(clutch::FRICTION.id, 0.05);
    let [outer, inner] = [0.228_f64, 0.150_f64];
    let held = 2.0 * 0.05 * 5000.0 * (outer * outer * outer - inner * inner * inner) / (3.0 * (outer * outer - inner * inner));
    agrees_within(car.get(bonnet_line::ROLL), (held * lowest).min(grip) * per_newton_metre, 1e-9, BY_HAND);
    assert!(held * lowest < grip, "the clutch is the least here");
}

#[test]
fn a_load_of_the_loom_is_missing_from_the_battery() {
    let mut car = Car::demo();
    let circuit = |id| Place { id, row: Some(RowId(1)) };
    let idle = (car.get(front_drive::CURRENT_IDLE), car.get(front_drive::CURRENT_CRUISE));
    car.set(circuit(wiring::PATTERN.id), 0.0);
    let before = [car.get(front_drive::BALANCE_IDLE), car.get(front_drive::BALANCE_CRUISE)];
    let was = [wiring::DUTY_AT_IDLE.id, wiring::DUTY_AT_CRUISE.id].map(|duty| car.at(wiring::CURRENT.id, 1) * car.at(duty, 1));
    car.set(circuit(wiring::CURRENT.id), 9.0);
    car.set(circuit(wiring::DUTY_AT_IDLE.id), 0.5);
    car.set(circuit(wiring::DUTY_AT_CRUISE.id), 1.0);
    agrees_within(car.get(front_drive::BALANCE_IDLE), before[0] + was[0] - 9.0 * 0.5, 1e-9, BY_HAND);
    agrees_within(car.get(front_drive::BALANCE_CRUISE), before[1] + was[1] - 9.0, 1e-9, BY_HAND);
    assert_eq!(idle, (car.get(front_drive::CURRENT_IDLE), car.get(front_drive::CURRENT_CRUISE)), "what it makes stays");
    assert_eq!(car.get(wiring::BALANCE_AT_IDLE), car.get(front_drive::BALANCE_IDLE), "both calculators tell the same");
}

#[test]
fn a_larger_alternator_asks_more_of_the_charge_cable() {
    let mut car = Car::demo();
    let [size, _] = [car.get(wiring::CHARGE_SIZE), car.get(wiring::CHARGE_FUSE)];
    car.set(wiring::CHARGE_SIZE.id, size);
    let mut losses = Vec::new();
    for rated in [45.0, 70.0] {
        car.set(front_drive::RATED_CURRENT.id, rated);
        agrees_within(car.get(wiring::ALTERNATOR_CURRENT), rated, 1e-12, BY_HAND);
        // The return is copper at the bay's temperature: U = I·R.
        losses.push(car.get(wiring::CHARGE_RETURN_DROP) / rated);
        // Smallest of the standard ratings (ISO 8820-3, from memory) that is a quarter over.
        let fuse = [60.0, 100.0].into_iter().find(|rating| *rating >= 1.25 * rated).expect("a rating");
        agrees_within(car.get(wiring::CHARGE_FUSE), fuse, 1e-12, "ISO 8820-3 ratings, from memory");
    }
    agrees_within(losses[1], losses[0], 1e-12, "Ohm's law");
    let mut sizes = Vec::new();
    car.build.put_back(wiring::CHARGE_SIZE.id.into());
    for rated in [35.0, 50.0, 100.0] {
        car.set(front_drive::RATED_CURRENT.id, rated);
        car.plan.evaluate(&car.build, &mut car.report);
        sizes.push(car.get(wiring::CHARGE_SIZE));
    }
    assert!(sizes.is_sorted() && sizes[0] < sizes[2], "{sizes:?}");
}

#[test]
fn accessories_weigh_on_the_engine_by_their_ratio_squared() {
    let mut car = Car::demo();
    let before = [car.get(flywheel::ENGINE_INERTIA), car.get(flywheel::REV_TIME)];
    car.set(front_drive::ALTERNATOR_ROTOR.id, 0.004);
    let line = 2.0 * car.get(front_drive::LINE_DIFFERENCE);
    let ratio = (car.get(front_drive::CRANK_PULLEY) + line) / (car.get(front_drive::ALTERNATOR_PULLEY) + line);
    let inertia = before[0] + (0.004 - 0.0015) * ratio * ratio;
    agrees_within(car.get(flywheel::ENGINE_INERTIA), inertia, 1e-12, BY_HAND);
    agrees_within(car.get(flywheel::REV_TIME), before[1] * inertia / before[0], 1e-12, BY_HAND);
    // And a smaller pulley on it counts by its square.
    car.set(front_drive::ALTERNATOR_PULLEY.id, 0.050);
    let faster = (car.get(front_drive::CRANK_PULLEY) + line) / (0.050 + line);
    let inertia = inertia + 0.004 * (faster * faster - ratio * ratio);
    agrees_within(car.get(flywheel::ENGINE_INERTIA), inertia, 1e-12, BY_HAND);
}

#[test]
fn a_heavier_flywheel_heats_the_clutchs_plate_when_let_in_at_once() {
    let mut car = Car::demo();
    let mut rises = Vec::new();
    for mass in [3.7, 4.2, 9.0] {
        car.set(flywheel::WEIGHED.id, mass);
        let plate = car.get(flywheel::PLATE_INERTIA);
        let engine = 0.050 + 0.040 + car.get(front_drive::REFLECTED_INERTIA) + mass * 0.105 * 0.105;
        let per_radian = car.get(car::ROLLING_RADIUS) / (car.at(car::GEAR_RATIO.id, 1) * 3.9);
        let road = 730.0 * per_radian * per_radian + plate;
        let speed = per_minute(3000.0);
        // Two flywheels joined by a clutch: ½·J₁·J₂/(J₁ + J₂)·ω².
        let heat = 0.5 * engine * road / (engine + road) * speed * speed;
        agrees_within(car.get(clutch::DUMP_HEAT), heat, 1e-9, BY_HAND);
        let rise = heat / (1.2 * 480.0);
        agrees_within(car.get(clutch::DUMP_RISE), rise, 1e-9, BY_HAND);
        rises.push(rise);
        // Slipped in at a held speed it does not matter what the wheel weighs.
        let torque = car.get(flywheel::SLIP_TORQUE);
        let resisting = 0.013 * 730.0 * 9.806_65 * per_radian;
        let slipped = 0.5 * road * speed * speed * torque / (torque - resisting);
        agrees_within(car.get(clutch::SLIP_RISE), slipped / (1.2 * 480.0), 1e-9, BY_HAND);
        agrees_within(car.get(clutch::LAUNCHES), (250.0 - 100.0) / (slipped / (1.2 * 480.0)), 1e-9, BY_HAND);
    }
    assert!(rises.is_sorted());
    // What is typed on the clutch's own screen stands.
    car.set(clutch::DUMP_HEAT.id, 5760.0);
    agrees_within(car.get(clutch::DUMP_RISE), 10.0, 1e-12, BY_HAND);
    car.set(clutch::WARM_BEFORE.id, 273.15 + 260.0);
    assert_eq!(car.get(clutch::LAUNCHES), 0.0, "hot from the start");
}

#[test]
fn a_lighter_flywheel_pulls_harder_at_the_belt() {
    let mut car = Car::demo();
    for mass in [3.7, 9.0] {
        car.set(flywheel::WEIGHED.id, mass);
        // Free rev at peak torque: α = M/J.
        let wanted = car.get(car::PEAK_TORQUE) / car.get(flywheel::ENGINE_INERTIA);
        agrees_within(car.get(front_drive::CRANK_ACCELERATION), wanted, 1e-12, BY_HAND);
    }
}
