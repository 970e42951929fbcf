//! Heavy cables, the charge lamp, the battery.

use trialfit_core::calculators::wiring::budget::lasts;
use trialfit_core::calculators::wiring::cables::{battery_resistance, crank_current, left_at_starter, past_the_strap};
use trialfit_core::calculators::wiring::choices::Pattern;
use trialfit_core::calculators::wiring::load::{average, coil_duty, draw, fuse_share};
use trialfit_core::calculators::wiring::signals::back_feed;
use trialfit_core::quantity::{
    ampere_hours, amperes, celsius, milliamperes, milliohms, milliseconds, ohms, per_minute, percent, ratio, volts,
};
use trialfit_tests::{agrees, agrees_within};

/// 12.6 V, 6 mΩ, 1.5 m of ideal 25 mm², 1 mΩ back, 250 A: 10.591379 V left, computed.
#[test]
fn a_starter_gets_what_is_left() {
    let left = left_at_starter(volts(12.6), amperes(250.0), milliohms(6.0), milliohms(1.034_483), milliohms(1.0));
    agrees(left.in_volts(), 10.591_379, 5e-7, "Ohm's law");
}

/// Battery and starter at both ends of their straight lines (common practice, no source).
#[test]
fn cold_costs_the_battery_and_the_starter() {
    let battery = |at: f64| battery_resistance(milliohms(7.0), ratio(1.8), celsius(at)).in_milliohms();
    agrees_within(battery(25.0), 7.0, 1e-12, "by definition");
    agrees_within(battery(-10.0), 12.6, 1e-12, "by definition");
    let starter = |at: f64| crank_current(amperes(180.0), amperes(260.0), celsius(at)).in_amperes();
    agrees_within(starter(20.0), 180.0, 1e-12, "by definition");
    agrees_within(starter(-10.0), 260.0, 1e-12, "by definition");
    assert!(starter(1000.0) >= 90.0 && battery(1000.0) >= 3.5);
}

/// Two ways in parallel share as their conductances.
#[test]
fn what_a_strap_does_not_carry_goes_by() {
    agrees_within(past_the_strap(amperes(180.0), milliohms(1.0), milliohms(29.0)).in_amperes(), 6.0, 1e-12, "180/30");
}

/// Coil of 8 A and 3 ms: average ½·I·t·f, rms I·√(t·f/3), f the sparks in a second (definition of both).
#[test]
fn coils_draw_a_ramp() {
    let duty = coil_duty(milliseconds(3.0), per_minute(6800.0), ratio(4.0));
    // 6800 min⁻¹ fires a four 226.67 times in a second.
    agrees_within(duty.si(), 0.003 * 6800.0 / 60.0 * 2.0, 1e-12, "two sparks in a turn of a four");
    let frequency = 6800.0 / 60.0 * 2.0;
    agrees_within(average(Pattern::Ramp, amperes(8.0), duty).in_amperes(), 0.5 * 8.0 * 0.003 * frequency, 1e-12, "triangle's mean");
    let drawn = draw(Pattern::Ramp, amperes(8.0), duty);
    agrees_within(drawn.rms.in_amperes(), 8.0 * (0.003 * frequency / 3.0_f64).sqrt(), 1e-12, "triangle's root mean square");
    assert_eq!(drawn.peak, amperes(8.0));
    // Four injectors of 1 A: 0.4 A on average at idle, 3.2 A at most (common practice).
    agrees_within(average(Pattern::Pulsed, amperes(4.0), ratio(0.1)).in_amperes(), 0.4, 1e-12, "common practice, no source");
    agrees_within(average(Pattern::Pulsed, amperes(4.0), ratio(0.8)).in_amperes(), 3.2, 1e-12, "common practice, no source");
    agrees_within(draw(Pattern::Pulsed, amperes(4.0), ratio(0.25)).rms.in_amperes(), 2.0, 1e-12, "root mean square of a pulse");
}

/// Ramps that overlap are evenly staggered: their sum over one spacing, added up in 100 000 steps, has the same peak and rms.
#[test]
fn overlapping_ramps_are_never_all_at_their_top() {
    for duty in [0.3, 1.0, 1.02, 1.4, 2.0, 3.7] {
        let drawn = draw(Pattern::Ramp, amperes(8.0), ratio(duty));
        let steps = 100_000;
        let sums = (0..steps).map(|step| {
            let since = (f64::from(step) + 0.5) / f64::from(steps);
            (0..4).map(|earlier| since + f64::from(earlier)).filter(|on| *on < duty).map(|on| 8.0 * on / duty).sum::<f64>()
        });
        let (most, squares) = sums.fold((0.0_f64, 0.0), |(most, squares), sum| (most.max(sum), squares + sum * sum));
        agrees_within(drawn.peak.in_amperes(), most, 1e-3, "sum of staggered ramps");
        agrees_within(drawn.rms.in_amperes(), (squares / f64::from(steps)).sqrt(), 1e-4, "sum of staggered ramps");
    }
}

/// Three quarters at 25 °C, nine tenths of that at 80 °C (common practice, no source).
#[test]
fn a_warm_fuse_carries_less() {
    agrees_within(fuse_share(percent(75.0), celsius(25.0)).in_percent(), 75.0, 1e-12, "by definition");
    agrees_within(fuse_share(percent(75.0), celsius(80.0)).in_percent(), 67.5, 1e-12, "by definition");
    agrees_within(fuse_share(percent(75.0), celsius(0.0)).in_percent(), 75.0, 1e-12, "no more when cold");
}

/// Ohm's law through lamp and coil, and C·s/I.
#[test]
fn lamps_feed_back_and_batteries_run_down() {
    // 65 Ω and a coil of 0.15 A at 12.6 V (84 Ω).
    agrees_within(back_feed(volts(13.8), ohms(65.0), volts(12.6), amperes(0.15)).in_amperes(), 13.8 / 149.0, 1e-12, "Ohm's law");
    agrees_within(lasts(ampere_hours(44.0), percent(50.0), milliamperes(20.0)).in_days(), 44.0 * 0.5 / 0.02 / 24.0, 1e-12, "C·s/I");
    agrees_within(lasts(ampere_hours(44.0), percent(50.0), amperes(5.5)).in_hours(), 4.0, 1e-12, "C·s/I");
}
