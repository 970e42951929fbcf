//! Leaving: speed left and heat made.

use trialfit_core::calculators::flywheel::launch::{car_at_clutch, join, joining_time, rise, slip_heat};
use trialfit_core::calculators::flywheel::sections::Body;
use trialfit_core::quantity::*;
use trialfit_tests::{agrees, agrees_within};

/// Khurmi & Gupta, Theory of Machines, ex. 3.12 (70.8 rad/s, 0.06 s, 356 J) and 10.27 (56.51 rad/s, 62.8 s, 156 kJ).
#[test]
fn two_wheels_settle_where_khurmi_says() {
    let wheel = |mass: f64, radius: f64| Body::of_gyration(kilograms(mass), metres(radius)).inertia;
    let joined = join(wheel(60.0, 0.14), per_minute(750.0), wheel(20.0, 0.08), RotationalSpeed::ZERO);
    agrees(joined.speed.in_radians_per_second(), 70.830_387, 5e-7, "Khurmi & Gupta, ex. 3.12");
    agrees(joined.heat.in_joules(), 356.032_355, 5e-7, "Khurmi & Gupta, ex. 3.12");
    let time = joining_time(wheel(60.0, 0.14), wheel(20.0, 0.08), per_minute(750.0), newton_metres(150.0)).expect("bites");
    agrees(time.in_seconds(), 0.060_441_930, 5e-10, "Khurmi & Gupta, ex. 3.12");
    let joined = join(wheel(800.0, 0.2), per_minute(1250.0), wheel(1300.0, 0.18), RotationalSpeed::ZERO);
    agrees(joined.speed.in_radians_per_second(), 56.513_629, 5e-7, "Khurmi & Gupta, ex. 10.27");
    agrees(joined.heat.in_joules(), 155_793.809, 5e-4, "Khurmi & Gupta, ex. 10.27");
    let time = joining_time(wheel(800.0, 0.2), wheel(1300.0, 0.18), per_minute(1250.0), newton_metres(37.905)).expect("bites");
    agrees(time.in_seconds(), 62.797_891, 5e-7, "Khurmi & Gupta, ex. 10.27");
    assert!(joining_time(wheel(60.0, 0.14), wheel(20.0, 0.08), per_minute(750.0), Torque::ZERO).is_err());
}

/// 0.13 kg·m², 730 kg, 0.28 m, 14.18, from 3000 min⁻¹: 941 min⁻¹ left and 4.4 kJ of a dump, 14.0 kJ of a slip.
#[test]
fn a_dump_and_a_slip_differ_threefold() {
    let car = car_at_clutch(kilograms(730.0), metres(0.28), ratio(14.18));
    let joined = join(kilogram_square_metres(0.13), per_minute(3000.0), car, RotationalSpeed::ZERO);
    agrees(joined.speed.in_per_minute(), 941.0, 0.5, "common practice, no source; by hand");
    agrees(joined.heat.in_kilojoules(), 4.4, 0.05, "common practice, no source; by hand");
    let heat = slip_heat(car, per_minute(3000.0), newton_metres(225.0), Torque::ZERO).expect("moves");
    agrees(heat.in_kilojoules(), 14.0, 0.05, "common practice, no source; by hand");
    // A clutch that carries twice what resists makes twice the heat.
    let double = slip_heat(car, per_minute(3000.0), newton_metres(40.0), newton_metres(20.0)).expect("moves");
    agrees_within(double / heat, 2.0, 1e-12, "M_c/(M_c − M_r)");
    assert!(slip_heat(car, per_minute(3000.0), newton_metres(20.0), newton_metres(20.0)).is_err());
}

/// Engine held at a speed while 785 kg reaches 8 m/s: half of m·v² goes to heat, 43.6 K in 1.2 kg of steel.
#[test]
fn a_slip_heats_the_plate_by_the_cars_own_energy() {
    let (overall, radius) = (ratio(14.0), metres(0.3));
    let car = car_at_clutch(kilograms(785.0), radius, overall);
    let speed = radians_per_second(8.0 * 14.0 / 0.3);
    let heat = slip_heat(car, speed, newton_metres(100.0), Torque::ZERO).expect("moves");
    agrees(heat.in_joules(), 25_120.0, 1e-7, "½·m·v²");
    let warmer = rise(heat, kilograms(1.2), joules_per_kilogram_kelvin(480.0));
    agrees(warmer.in_kelvin_rise(), 43.611, 5e-4, "Q/(m·c)");
}
