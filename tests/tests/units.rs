//! Unit constants against their definitions, and against another library.

use trialfit_core::build::Build;
use trialfit_core::entry::read_quantity;
use trialfit_core::plan::Plan;
use trialfit_core::quantity::unit::{AWG, CONDUCTOR, MM2};
use trialfit_core::quantity::*;
use trialfit_core::report::Report;
use trialfit_core::share::link::{self, Link};
use trialfit_core::show::{self, Sort, System};
use trialfit_core::spec::{Kind, Role};
use trialfit_tests::{agrees, agrees_within};

const SP811: &str = "NIST SP 811, 2008 ed., appendix B (from memory)";

#[track_caller]
fn is_si(got: f64, expected: f64) {
    agrees_within(got, expected, 1e-9, SP811);
}

#[test]
fn lengths_and_areas_are_those_of_sp_811() {
    is_si(inches(1.0).si(), 0.0254);
    is_si(feet(1.0).si(), 0.3048);
    is_si(miles(1.0).si(), 1609.344);
    // A circular mil is the circle of a thousandth of an inch.
    is_si(circle(inches(0.001)).in_square_millimetres(), 5.067_074_790_974_977e-4);
    // A US gallon is 231 cubic inches.
    is_si(cubic_inches(231.0).in_litres(), 3.785_411_784);
}

#[test]
fn masses_forces_and_pressures_are_those_of_sp_811() {
    is_si(pounds(1.0).si(), 0.453_592_37);
    is_si(pounds_force(1.0).si(), 4.448_221_615_260_5);
    is_si(kilograms_force(1.0).si(), 9.806_65);
    is_si(kilograms_force_per_millimetre(1.0).si(), 9_806.65);
    is_si(pounds_per_square_inch(1.0).si(), 6_894.757_293_168_361);
    is_si(bar(1.0).si(), 100_000.0);
    // What an abstract calls a comfortable clutch pedal.
    agrees(kilograms_force(10.0).in_newtons(), 98.07, 0.005, "SAE 2014-36-0139, abstract: 10 to 13 kgf");
    agrees(kilograms_force(13.0).in_newtons(), 127.49, 0.005, "SAE 2014-36-0139, abstract: 10 to 13 kgf");
    // Printed to nine digits.
    agrees(pound_square_inches(1.0).si(), 2.926_396_53e-4, 5e-13, SP811);
}

#[test]
fn torques_and_powers_are_those_of_sp_811() {
    is_si(pounds_force_feet(1.0).si(), 1.355_817_948_331_400_4);
    is_si(kilograms_force_metres(1.0).si(), 9.806_65);
    is_si(pounds_force_inches(1.0).si(), 0.112_984_829_027_616_7);
    is_si(horsepower(1.0).si(), 745.699_871_582_270_2);
    is_si(metric_horsepower(1.0).si(), 735.498_75);
    // Exact by definition: 33 000/2π and 30 000/π.
    let imperial = pounds_force_feet(1.0) * per_minute(5_252.113_122_032_546);
    is_si(imperial.in_horsepower(), 1.0);
    let metric = newton_metres(1.0) * per_minute(9_549.296_585_513_72);
    is_si(metric.in_kilowatts(), 1.0);
}

#[test]
fn speeds_and_temperatures_are_those_of_sp_811() {
    is_si(miles_per_hour(1.0).si(), 0.447_04);
    is_si(miles_per_hour(1.0).in_kilometres_per_hour(), 1.609_344);
    is_si(per_minute(1.0).si(), 0.104_719_755_119_659_77);
    is_si(fahrenheit(212.0).in_celsius(), 100.0);
    is_si(fahrenheit(-40.0).in_celsius(), -40.0);
    is_si(fahrenheit(0.0).si(), 459.67 * 5.0 / 9.0);
}

/// A full turn is 360° and 2π rad, so what twists a radian twists so much less a degree.
#[test]
fn a_torsion_spring_is_the_same_by_degrees() {
    let rate = newton_metres_per_degree(1.0);
    agrees_within(rate.in_newton_metres_per_radian() * degrees(360.0).si(), 360.0, 1e-12, "definition of the degree");
}

/// uom 0.38 as a second opinion, where its factors are exact. Left out are its pound, ounce, pound-force and metric
/// horsepower, rounded to seven digits, and all built on them.
#[test]
fn another_library_agrees() {
    use uom::si::f64 as other;
    use uom::si::{angle, angular_velocity, length, pressure, thermodynamic_temperature as temperature, velocity, volume};
    #[track_caller]
    fn same(got: f64, expected: f64) {
        agrees_within(got, expected, 1e-12, "uom 0.38");
    }
    let of_length = |value: other::Length| value.get::<length::meter>();
    same(inches(7.0).si(), of_length(other::Length::new::<length::inch>(7.0)));
    same(feet(7.0).si(), of_length(other::Length::new::<length::foot>(7.0)));
    same(miles(7.0).si(), of_length(other::Length::new::<length::mile>(7.0)));
    same(micrometres(7.0).si(), of_length(other::Length::new::<length::micrometer>(7.0)));
    same(degrees(7.0).si(), other::Angle::new::<angle::degree>(7.0).get::<angle::radian>());
    let turning = other::AngularVelocity::new::<angular_velocity::revolution_per_minute>(7.0);
    same(per_minute(7.0).si(), turning.get::<angular_velocity::radian_per_second>());
    let of_velocity = |value: other::Velocity| value.get::<velocity::meter_per_second>();
    same(miles_per_hour(7.0).si(), of_velocity(other::Velocity::new::<velocity::mile_per_hour>(7.0)));
    same(kilometres_per_hour(7.0).si(), of_velocity(other::Velocity::new::<velocity::kilometer_per_hour>(7.0)));
    let of_volume = |value: other::Volume| value.get::<volume::cubic_meter>();
    same(litres(7.0).si(), of_volume(other::Volume::new::<volume::liter>(7.0)));
    same(bar(7.0).si(), other::Pressure::new::<pressure::bar>(7.0).get::<pressure::pascal>());
    let of_temperature = |value: other::ThermodynamicTemperature| value.get::<temperature::kelvin>();
    same(celsius(7.0).si(), of_temperature(other::ThermodynamicTemperature::new::<temperature::degree_celsius>(7.0)));
    same(fahrenheit(7.0).si(), of_temperature(other::ThermodynamicTemperature::new::<temperature::degree_fahrenheit>(7.0)));
}

/// A cell in the units of a way, as shown, and the number behind it.
fn shown(key: &str, number: f64, system: System) -> String {
    let build = Build::default();
    let layout = build.layout();
    let spec = layout.spec(layout.place_by_key(key).expect("a key").id);
    show::cell(spec, spec.to_cell(number), system).to_string().replace('\u{A0}', " ")
}

/// Each sort of its own: what NIST SP 811 and ASTM B258 (both from memory) make of the same cell.
#[test]
fn each_sort_is_shown_in_its_own_unit() {
    let of = |sort, way| System::Metric.with(sort, way);
    for (key, number, system, said) in [
        ("clutch.slave-bore", 22.225, of(Sort::Bore, 1), "0.875 in"),
        ("clutch.slave-bore", 22.225, of(Sort::Length, 1), "22.225 mm"),
        ("clutch.pedal-travel", 127.0, of(Sort::Bore, 1), "127 mm"),
        ("clutch.pedal-travel", 127.0, of(Sort::Length, 1), "5 in"),
        ("clutch.effort-limit", 98.0665, of(Sort::Force, 1), "10 kgf"),
        ("clutch.effort-limit", 44.482_216_152_605, of(Sort::Force, 2), "10 lbf"),
        ("clutch.finger-stiffness", 980.665, of(Sort::Force, 1), "100 kgf/mm"),
        ("clutch.torque-to-hold", 135.581_794_833_140_04, of(Sort::Torque, 2), "100 lbf·ft"),
        ("clutch.torque-to-hold", 98.0665, of(Sort::Torque, 1), "10 kgf·m"),
        ("front-drive.radiator-loss", 6.894_757_293_168_361, of(Sort::Pressure, 2), "1 psi"),
        ("wiring.starter-size", 35.0, of(Sort::Length, 1), "35 mm²"),
        ("wiring.starter-size", 35.0, of(Sort::Conductor, 1), "35 mm² (1 AWG or thicker)"),
        ("wiring.starter-size", 67.43, of(Sort::Conductor, 1), "2/0 AWG"),
    ] {
        assert_eq!(shown(key, number, system), said, "{key}");
    }
}

/// The units shown are no part of a build: its link and every bit of its report stay, whatever they are.
#[test]
fn units_change_no_bit_of_a_build() {
    let build = Build::default();
    let mut report = Report::new(&build);
    Plan::default().evaluate(&build, &mut report);
    let layout = build.layout();
    for system in Sort::ALL.map(|sort| System::Metric.with(sort, 1)).into_iter().chain([System::Imperial]) {
        for place in layout.places(Role::Input) {
            let Kind::Quantity { dimension, unit } = layout.kind(place.id) else { continue };
            let Ok(value) = report.value(place) else { continue };
            // What a field shows is typed into it again as it stands: the same number, or one that is shown alike.
            let shown = show::cell(layout.spec(place.id), value, system);
            let field = if system.shows_gauges(unit) { AWG } else { system.unit(dimension, unit) };
            let text = if shown.unit == field.symbol { shown.number.clone() } else { format!("{} {}", shown.number, unit.symbol) };
            let read = read_quantity(&text, dimension, field).expect("what is shown");
            assert!((read - value).abs() <= 1e-5 * value.abs().max(1e-9), "{}: {text} is not {value}", layout.key(place));
            assert_eq!(show::cell(layout.spec(place.id), read, system), shown, "{}", layout.key(place));
        }
        let link = Link { units: Some(system), ..build.clone().into() };
        let opened = link::read(&link::write(&link)).expect("a link");
        assert_eq!((opened.link, opened.problems), (link, Vec::new()));
    }
    assert_eq!(link::write(&build.into()), "1.1/end");
}

/// Areas by ASTM B258, from memory; a size in a field is a gauge where gauges are shown, else square millimetres.
#[test]
fn a_conductor_may_be_typed_by_its_gauge() {
    let read = |typed: &str, unit| read_quantity(typed, Area::DIMENSION, unit).map(|si| Area::from_si(si).in_square_millimetres());
    for (typed, mm2) in
        [("AWG 6", 13.30), ("6 AWG", 13.30), ("awg12", 3.309), ("1/0 AWG", 53.48), ("AWG 4/0", 107.2), ("00 awg", 67.43), ("2.5", 2.5)]
    {
        agrees(read(typed, CONDUCTOR).expect("a conductor"), mm2, 0.03, "ASTM B258 (from memory)");
    }
    for (typed, mm2) in [("6", 13.30), ("2/0", 67.43), ("4 / 0", 107.2), ("2.5 mm²", 2.5), ("6mm2", 6.0), ("10 awg", 5.261)] {
        agrees(read(typed, AWG).expect("a conductor"), mm2, 0.03, "ASTM B258 (from memory)");
    }
    let no_gauge =
        "is no American gauge: they are whole, 40 the thinnest and 4/0 the thickest. Write one like 12 AWG, or an area like 2.5 mm².";
    for typed in ["2.5", "41", "5/0", "-6", "(3+3)", "½", "6 awg awg"] {
        let said = read(typed, AWG).expect_err("no gauge").to_string();
        assert_eq!(said, format!("“{}” {no_gauge}", typed.to_uppercase()));
    }
    assert_eq!(read("", AWG).expect_err("nothing").to_string(), "Nothing is written here. Write a number: 12.5 mm².");
    assert_eq!(read("six", AWG).expect_err("words").to_string(), "“six” is not a number. Write one, with its unit if you like: 12.5 mm².");
    // A piston's area is no wire's.
    assert!(read("6 AWG", MM2).is_err());
}
