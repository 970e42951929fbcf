//! What the flywheel asks and answers.

use super::material::Material;
use super::sections::Touching;
use super::sketches;
use super::strength::Outcome;
use super::swing::{Hanging, Reading};
use super::totals::Agreement;
use crate::calculators::car::{GEARS, IDLE, REDLINE};
use crate::calculators::clutch::CAPACITY;
use crate::calculators::front_drive::REFLECTED_INERTIA;
use crate::measure::Guide;
use crate::quantity::{
    Density, Energy, Frequency, Inertia, Length, Mass, Pressure, Ratio, RotationalSpeed, SpecificHeat, TemperatureRise, Time, Torque,
    TorsionalStiffness, Velocity,
};
use crate::spec::Cell::{Number, Text, Usual};
use crate::spec::Source::{CommonPractice, FromMemory, Judgement};
use crate::spec::{Cell, Source, Verdict, Words};
use crate::{choices, declare};

choices! {
    /// Where the chosen wheel's inertia comes from.
    InertiaMethod {
        Gyration "gyration" "mass and radius of gyration"
        Sections "sections" "sizes of the turned wheel"
        Swing "swing" "a swing test"
    }
}

choices! {
    /// Metal of one ring.
    RingMaterial {
        Wheel "wheel" "as the wheel"
        Steel "steel" "steel"
        Iron "iron" "cast iron"
        Aluminium "aluminium" "aluminium"
    }
}

pub(super) const NO_TEST: &str = "A number is not a burst test. Stay out of the plane of the wheel.";
pub(super) const PROOF: &str = "Have proof of the metal, a certified wheel and a scatter shield where rules or sense ask for it.";
pub(super) const CAST: &str = "Never machine a cast flywheel down to a mass on these figures alone. A burst wheel comes through the floor.";

const HANDBOOK: Source = FromMemory("handbooks of materials");
const STEEL_RING: Cell = Cell::Choice(1);
const STOPWATCH: Guide = Guide::Stopwatch { count: SWINGS.id, time: SWING_TIME.id, doubt: TIME_DOUBT.id };

declare! {
    calculator crate::calculators::FLYWHEEL_PLACE;
    tables {
        RINGS: "rings", "Turned rings", "Rings of metal that make up the wheel, none over another.", 1..=16, &[
            &[Text("hub"), Number(112.0), Number(42.0), Number(0.0), Number(10.0), Usual],
            &[Text("web"), Number(150.0), Number(112.0), Number(2.0), Number(6.0), Usual],
            &[Text("friction face"), Number(236.0), Number(150.0), Number(3.0), Number(9.0), Usual],
            &[Text("rim"), Number(272.0), Number(236.0), Number(3.0), Number(8.0), Usual],
            &[Text("ring gear"), Number(290.0), Number(272.0), Number(2.0), Number(10.0), STEEL_RING],
        ];
        HOLES: "holes", "Holes on a circle", "Like holes, evenly spaced, each row one circle of them.", 0..=12, &[
            &[Text("crank bolts"), Number(6.0), Number(11.0), Number(72.0), Number(10.0), Usual],
            &[Text("cover bolts"), Number(6.0), Number(8.0), Number(252.0), Number(8.0), Usual],
            &[Text("lightening"), Number(12.0), Number(20.0), Number(131.0), Number(6.0), Usual],
        ];
    }

    input METHOD: InertiaMethod, "", "method", "Inertia comes from", "The way you know your wheel: weighed, measured up, or swung." {
        default(0.0, CommonPractice) group("Flywheel")
    }
    input WEIGHED: Mass, "kg", "mass", "Mass on the scales", "The wheel with its ring gear, without clutch and bolts, on kitchen scales." {
        default(4.2, CommonPractice) possible(0.5, 60.0) usual(3.0, 12.0, 0.1) group("Flywheel") matters()
    }
    input GYRATION: Length, "mm", "radius-of-gyration", "Radius of gyration", "Radius at which all its mass would be as hard to spin: 0.35 to 0.38 of the outside diameter; a swing test tells." {
        default(105.0, CommonPractice) possible(10.0, 300.0) usual(80.0, 130.0, 1.0) group("Flywheel") matters()
    }
    input MATERIAL: Material, "", "material", "Material", "Metal of the wheel: ask its maker, and for proof. If you do not know, take grey cast iron." {
        default(0.0, CommonPractice) group("Flywheel") of_the_car() matters()
    }
    input OUTER: Length, "mm", "outside-diameter", "Outside diameter", "Calliper over the ring gear's teeth, or a tape round it over 3.142." {
        possible(50.0, 800.0) usual(230.0, 320.0, 1.0) follows(OUTER_FROM_SECTIONS.id) sketched(&sketches::WHEEL) group("Flywheel")
    }
    input BORE: Length, "mm", "bore", "Bore", "Of the hole in the middle: calliper, inside jaws." {
        possible(0.0, 700.0) usual(20.0, 80.0, 0.5) follows(BORE_FROM_SECTIONS.id) sketched(&sketches::WHEEL) group("Flywheel")
    }
    input BOLT_CIRCLE: Length, "mm", "bolt-circle", "Circle of the crank bolts", "Diameter of the circle through the bolts' middles: edge to far edge of opposite holes, less one hole. The innermost of the table unless typed." {
        possible(10.0, 700.0) usual(50.0, 110.0, 0.5) follows(BOLT_CIRCLE_FROM_SECTIONS.id) sketched(&sketches::WHEEL) group("Flywheel")
    }

    column(RINGS) RING_NAME: Words, "", "name", "Ring", "What you call this ring." { text(40) group("Sections") }
    column(RINGS) RING_OUTER: Length, "mm", "outer", "Outer diameter", "Calliper over this ring; for the ring gear half way up its teeth." {
        default(f64::NAN, CommonPractice) possible(1.0, 800.0) usual(40.0, 320.0, 0.5) sketched(&sketches::RING) group("Sections") of_the_car()
    }
    column(RINGS) RING_INNER: Length, "mm", "inner", "Inner diameter", "Calliper, inside jaws; nothing for a disc." {
        default(f64::NAN, CommonPractice) possible(0.0, 800.0) usual(0.0, 300.0, 0.5) sketched(&sketches::RING) group("Sections") of_the_car()
    }
    column(RINGS) RING_FROM: Length, "mm", "from", "Starts at", "Along the axis from the face that meets the crank, towards the clutch: depth gauge from a straightedge." {
        default(0.0, CommonPractice) possible(-200.0, 300.0) usual(-20.0, 40.0, 0.5) sketched(&sketches::RING) group("Sections") of_the_car()
    }
    column(RINGS) RING_WIDTH: Length, "mm", "width", "Width", "Of this ring along the axis: calliper, or depth gauge on either side." {
        default(f64::NAN, CommonPractice) possible(0.1, 300.0) usual(2.0, 40.0, 0.5) sketched(&sketches::RING) group("Sections") of_the_car()
    }
    column(RINGS) RING_MATERIAL: RingMaterial, "", "material", "Metal", "Of this ring, where it is another than the wheel's." {
        default(0.0, CommonPractice) group("Sections")
    }
    column(HOLES) HOLES_NAME: Words, "", "name", "Holes", "What these holes are for." { text(40) group("Sections") }
    column(HOLES) HOLE_COUNT: Ratio, "", "count", "Number", "How many on the circle." {
        default(f64::NAN, CommonPractice) possible(1.0, 200.0) usual(2.0, 24.0, 1.0) whole() group("Sections") of_the_car()
    }
    column(HOLES) HOLE_DIAMETER: Length, "mm", "diameter", "Diameter", "Of each hole: calliper, or the drill that just goes in." {
        default(f64::NAN, CommonPractice) possible(0.5, 200.0) usual(6.0, 40.0, 0.5) sketched(&sketches::HOLES) group("Sections") of_the_car()
    }
    column(HOLES) HOLE_CIRCLE: Length, "mm", "circle", "Circle", "Through the holes' middles: edge to far edge of opposite holes, less one hole." {
        default(f64::NAN, CommonPractice) possible(5.0, 800.0) usual(50.0, 280.0, 0.5) sketched(&sketches::HOLES) group("Sections") of_the_car()
    }
    column(HOLES) HOLE_DEPTH: Length, "mm", "depth", "Depth", "Of metal drilled away, from the clutch's side: depth gauge." {
        default(f64::NAN, CommonPractice) possible(0.1, 300.0) usual(4.0, 40.0, 0.5) sketched(&sketches::HOLES) group("Sections") of_the_car()
    }
    column(HOLES) BOLT_MASS: Mass, "g", "bolt-mass", "Mass put into each", "Bolt or dowel that stays with the wheel, on kitchen scales; nothing for an open hole." {
        default(0.0, CommonPractice) possible(0.0, 5000.0) usual(0.0, 150.0, 1.0) group("Sections")
    }
    input SCALES_TOLERANCE: Ratio, "%", "scales-tolerance", "Scales and sizes may differ by", "More than this, and a size or the metal is wrong." {
        default(3.0, Judgement) possible(0.1, 50.0) usual(1.0, 5.0, 0.5) group("Sections")
    }

    input SWING: Hanging, "", "hung", "Hung", "How the wheel hangs for its swing." { default(0.0, CommonPractice) group("Swing test") }
    input SWING_RADIUS: Length, "mm", "swing-radius", "Axis to string", "Rule from the wheel's middle to each string; half their distance for two strings; half the bore over an edge." {
        default(120.0, CommonPractice) possible(5.0, 400.0) usual(50.0, 150.0, 0.5) sketched(&sketches::SWING) group("Swing test") of_the_car()
    }
    input STRING_LENGTH: Length, "mm", "string-length", "String length", "Tape along each string from where it leaves the beam to the wheel: long, thin, upright." {
        default(1500.0, CommonPractice) possible(100.0, 10_000.0) usual(800.0, 2500.0, 5.0) sketched(&sketches::SWING) group("Swing test") of_the_car()
    }
    input SWINGS: Ratio, "", "swings", "Swings counted", "There and back is one. Twist it by a hand's width, no more." {
        default(30.0, CommonPractice) possible(1.0, 1000.0) usual(10.0, 60.0, 1.0) group("Swing test") of_the_car() guided(STOPWATCH)
    }
    input SWING_TIME: Time, "s", "swing-time", "Time for them all", "Start and stop the watch as it passes the middle; three times over." {
        default(64.5, CommonPractice) possible(0.1, 3600.0) usual(20.0, 120.0, 0.1) group("Swing test") of_the_car()
        guided(STOPWATCH) caution("Hang it low, over something soft, on three sound cords.")
    }
    input TIME_DOUBT: Time, "s", "time-doubt", "Time, give or take", "Of the whole count: a thumb on a watch is good for 0.3 s; the scatter of several runs tells better." {
        default(0.3, Judgement) possible(0.0, 60.0) usual(0.05, 1.0, 0.05) group("Swing test")
    }
    input RADIUS_DOUBT: Length, "mm", "radius-doubt", "Axis to string, give or take", "As well as you could measure it: a calliper 0.1 mm, a rule 0.5 mm." {
        default(0.5, Judgement) possible(0.0, 50.0) usual(0.1, 2.0, 0.1) group("Swing test")
    }
    input LENGTH_DOUBT: Length, "mm", "length-doubt", "String length, give or take", "As well as you could measure it: a tape is good for 2 mm." {
        default(2.0, Judgement) possible(0.0, 500.0) usual(0.5, 10.0, 0.5) group("Swing test")
    }
    input MASS_DOUBT: Mass, "g", "mass-doubt", "Mass, give or take", "As good as the scales are." {
        default(10.0, Judgement) possible(0.0, 5000.0) usual(1.0, 50.0, 1.0) group("Swing test")
    }

    input REFERENCE_MASS: Mass, "kg", "reference-mass", "Mass of the reference wheel", "The wheel that comes off, on the same scales." {
        default(9.0, CommonPractice) possible(0.5, 80.0) usual(6.0, 15.0, 0.1) group("Reference flywheel")
    }
    input REFERENCE_GYRATION: Length, "mm", "reference-gyration", "Its radius of gyration", "0.34 to 0.38 of its outside diameter is usual; a swing test tells." {
        default(100.0, CommonPractice) possible(10.0, 300.0) usual(80.0, 130.0, 1.0) group("Reference flywheel")
    }
    input REFERENCE_INERTIA: Inertia, "kg·m²", "reference-inertia", "Its inertia", "From its mass and radius of gyration unless you measured it." {
        possible(0.001, 5.0) usual(0.05, 0.2, 0.001) follows(REFERENCE_FROM_GYRATION.id) group("Reference flywheel")
    }

    input CRANK_INERTIA: Inertia, "kg·m²", "crank-inertia", "Crankshaft", "With its damper and what the rods add: its maker's, or a swing test of the crank." {
        default(0.050, Judgement) possible(0.0, 5.0) usual(0.02, 0.1, 0.001) group("What turns with it")
    }
    input COVER_INERTIA: Inertia, "kg·m²", "cover-inertia", "Clutch cover", "Bolted to the wheel: its mass times the square of 0.36 of its diameter, or a swing test." {
        default(0.040, Judgement) possible(0.0, 2.0) usual(0.02, 0.06, 0.001) group("What turns with it")
    }
    input PLATE_INERTIA: Inertia, "kg·m²", "plate-inertia", "Driven plate", "Turns with the engine only while the clutch holds: mass times the square of 0.35 of its diameter, or a swing test." {
        default(0.005, Judgement) possible(0.0, 0.5) usual(0.003, 0.01, 0.001) group("What turns with it")
    }
    input FRONT_PULLEY: Inertia, "kg·m²", "front-pulley", "Front pulley", "Half its mass times its radius squared. Only where the crankshaft's figure does not hold it already." {
        default(0.0, CommonPractice) possible(0.0, 0.5) usual(0.0, 0.01, 0.0005) group("What turns with it")
    }
    input ACCESSORIES: Inertia, "kg·m²", "accessories", "Accessories, at the crank", "Alternator, pump and idlers, each times its speed ratio squared: the front drive's, unless typed." {
        possible(0.0, 2.0) usual(0.0, 0.03, 0.001) follows(REFLECTED_INERTIA.id) group("What turns with it")
    }
    input WHEEL_INERTIA: Inertia, "kg·m²", "wheel-inertia", "One road wheel", "With tyre and disc, by a swing test or its maker; the car has four alike." {
        default(0.8, Judgement) possible(0.0, 20.0) usual(0.5, 1.2, 0.05) group("What turns with it")
    }

    input REV_FROM: RotationalSpeed, "min⁻¹", "rev-from", "Free revs from", "Where the throttle is opened, out of gear." {
        default(1000.0, CommonPractice) possible(100.0, 20_000.0) usual(800.0, 3000.0, 50.0) group("Response")
    }
    input REV_TO: RotationalSpeed, "min⁻¹", "rev-to", "Free revs to", "Where it is shut again." {
        default(6500.0, CommonPractice) possible(200.0, 20_000.0) usual(4000.0, 8000.0, 50.0) group("Response")
    }
    input GEAR_FROM: RotationalSpeed, "min⁻¹", "gear-from", "In gear from", "Where you floor it, in each gear." {
        default(2000.0, CommonPractice) possible(100.0, 20_000.0) usual(1500.0, 4000.0, 50.0) group("Response")
    }
    input GEAR_TO: RotationalSpeed, "min⁻¹", "gear-to", "In gear to", "Where you stop the watch." {
        default(6000.0, CommonPractice) possible(200.0, 20_000.0) usual(4000.0, 8000.0, 50.0) group("Response")
    }
    input SHIFT_SPEED: RotationalSpeed, "min⁻¹", "shift-speed", "Shift at", "Engine speed at which you change up." {
        possible(500.0, 20_000.0) usual(2500.0, 8500.0, 50.0) follows(REDLINE.id) group("Response")
    }
    input LAG: Time, "s", "lag", "Lag of throttle and control unit", "From a shut pedal to an engine without torque: a log of pedal and manifold pressure." {
        default(0.10, CommonPractice) possible(0.0, 2.0) usual(0.05, 0.2, 0.01) group("Response")
    }
    input PUMPING: Pressure, "bar", "pumping", "Pumping with the throttle shut", "Mean effective pressure over that of an open throttle: about air pressure less manifold pressure on the overrun." {
        default(0.65, CommonPractice) possible(0.0, 3.0) usual(0.5, 0.8, 0.05) group("Response")
    }

    input LAUNCH_SPEED: RotationalSpeed, "min⁻¹", "launch-speed", "Launch at", "Engine speed at which the clutch is let in." {
        default(3000.0, CommonPractice) possible(500.0, 15_000.0) usual(1500.0, 5000.0, 50.0) group("Launch")
    }
    input SLIP_TORQUE: Torque, "N·m", "slip-torque", "Clutch carries, slipped in", "At a held engine speed it carries what the engine makes there." {
        possible(1.0, 3000.0) usual(50.0, 300.0, 5.0) follows(TORQUE_AT_LAUNCH.id) group("Launch")
    }
    input CLUTCH_TORQUE: Torque, "N·m", "clutch-torque", "Clutch carries, let in at once", "All it can hold: the clutch's figure, unless typed." {
        possible(1.0, 5000.0) usual(150.0, 500.0, 5.0) follows(CAPACITY.id) group("Launch")
    }
    input HEAT_MASS: Mass, "kg", "heat-mass", "Metal that takes the heat", "What warms at once next to the facings: a few millimetres of both faces. Weigh the pressure plate for its share." {
        default(1.2, Judgement) possible(0.05, 50.0) usual(0.8, 4.0, 0.1) group("Launch")
    }
    input HEAT_CAPACITY: SpecificHeat, "J/(kg·K)", "heat-capacity", "Its specific heat", "480 for steel, 500 for cast iron." {
        default(480.0, HANDBOOK) possible(100.0, 2000.0) usual(450.0, 900.0, 10.0) group("Launch")
    }
    input STALL_SPEED: RotationalSpeed, "min⁻¹", "stall-speed", "It stalls below", "Slowest the engine pulls away from by itself: tachometer, in first, no throttle." {
        default(500.0, Judgement) possible(100.0, 3000.0) usual(400.0, 900.0, 10.0) group("Launch")
    }

    input GAS_TORQUE: Torque, "N·m", "gas-torque", "Swing of gas torque at idle", "To either side of its mean, out of gear. Only a cylinder-pressure log tells; take the usual." {
        default(120.0, Judgement) possible(1.0, 2000.0) usual(80.0, 180.0, 5.0) group("Idle")
    }
    input RECIPROCATING: Mass, "kg", "reciprocating-mass", "Reciprocating mass per cylinder", "Piston, pin, rings and the rod's small end, on kitchen scales: about a third of the rod." {
        default(0.55, Judgement) possible(0.0, 10.0) usual(0.4, 0.8, 0.01) group("Idle")
    }
    input STROKE: Length, "mm", "stroke", "Stroke", "Of the pistons: a rod through a plug hole, top to bottom, or the maker's." {
        default(94.0, CommonPractice) possible(20.0, 300.0) usual(80.0, 105.0, 0.1) group("Idle")
    }
    input ROD_RATIO: Ratio, "", "rod-ratio", "Crank radius by rod length", "Half the stroke over the rod's length between its eyes." {
        default(0.31, Judgement) possible(0.0, 0.6) usual(0.25, 0.35, 0.01) group("Idle")
    }

    input DENSITY: Density, "kg/m³", "density", "Density", "Of the wheel's metal." {
        possible(1000.0, 20_000.0) usual(2600.0, 8000.0, 10.0) follows(MATERIAL_DENSITY.id) group("Strength")
    }
    input STRENGTH: Pressure, "MPa", "strength", "Yield strength", "From the metal's certificate. Grey cast iron does not bend: its tensile strength counts." {
        possible(10.0, 3000.0) usual(150.0, 1000.0, 10.0) follows(MATERIAL_STRENGTH.id) group("Strength")
    }
    input TENSILE: Pressure, "MPa", "tensile-strength", "Tensile strength", "From the metal's certificate." {
        possible(10.0, 3000.0) usual(150.0, 1200.0, 10.0) follows(MATERIAL_TENSILE.id) group("Strength")
    }
    input HOLE_FACTOR: Ratio, "", "hole-factor", "Stress beside a hole, against without", "2 to 3: less where holes stand close to others, more at a scratched edge." {
        default(2.5, FromMemory("Peterson, Stress Concentration Factors")) possible(1.0, 6.0) usual(2.0, 3.0, 0.1) group("Strength")
    }
    input OVERSPEED_MARGIN: Ratio, "", "overspeed-margin", "Overspeed, against the redline", "At least this, whatever the gears." {
        default(1.2, CommonPractice) possible(1.0, 3.0) usual(1.1, 1.5, 0.05) group("Strength")
    }
    input FACTOR_WANTED: Ratio, "", "factor-wanted", "Factor wanted at redline", "Strength by the largest stress; below this the wheel is beyond." {
        default(2.0, Judgement) possible(1.0, 10.0) usual(1.5, 4.0, 0.1) group("Strength")
    }
    input FACTOR_NEAR: Ratio, "", "factor-near", "Factor that is close", "Below this the wheel is near its limit." {
        default(2.5, Judgement) possible(1.0, 20.0) usual(2.0, 5.0, 0.1) group("Strength")
    }
    input BURST_WANTED: Ratio, "", "burst-factor-wanted", "Burst speed wanted, against the overspeed", "A factor of 2 on speed is 4 on stress." {
        default(2.0, CommonPractice) possible(1.0, 10.0) usual(1.5, 3.0, 0.1) group("Strength")
    }
    input BURST_NEAR: Ratio, "", "burst-factor-near", "Burst speed that is close, against the overspeed", "Below this the wheel is near its limit." {
        default(2.2, Judgement) possible(1.0, 20.0) usual(1.6, 4.0, 0.1) group("Strength")
    }

    input PLATE_RATE: TorsionalStiffness, "N·m/rad", "plate-rate", "Spring rate of the driven plate", "Torque by twist of its springs: a bar, a weight and a protractor." {
        default(1000.0, Judgement) possible(1.0, 1e6) usual(300.0, 3000.0, 50.0) group("In place of a two-mass flywheel")
    }
    input GEARBOX_INERTIA: Inertia, "kg·m²", "gearbox-inertia", "Gearbox behind it", "Input shaft, layshaft and plate, out of gear." {
        default(0.01, Judgement) possible(0.0001, 1.0) usual(0.005, 0.02, 0.001) group("In place of a two-mass flywheel")
    }

    output MATERIAL_DENSITY: Density, "kg/m³", "material-density", "Density of the metal", "As tables give it." { digits(4) }
    output MATERIAL_POISSON: Ratio, "", "poisson", "Poisson's ratio", "As tables give it." {}
    output MATERIAL_STRENGTH: Pressure, "MPa", "material-strength", "Strength of the metal", "Lowest yield strength the standard promises; tensile strength for cast iron, which does not yield." {}
    output MATERIAL_TENSILE: Pressure, "MPa", "material-tensile", "Tensile strength of the metal", "Lowest the standard promises." {}

    output INERTIA: Inertia, "kg·m²", "inertia", "Inertia of the flywheel", "By the way chosen." { caution("It frees the engine; it also stalls it.") }
    output WHEEL_MASS: Mass, "kg", "wheel-mass", "Mass of the flywheel", "On the scales, or by its sizes where they are the way chosen." {}
    output MASS_SAVED: Mass, "kg", "mass-saved", "Lighter than the reference by", "What comes off the car." {}
    output ENGINE_INERTIA: Inertia, "kg·m²", "engine-inertia", "Inertia on the engine's side", "Flywheel, crank, cover, plate, pulley and accessories." {}
    output REFERENCE_ENGINE_INERTIA: Inertia, "kg·m²", "reference-engine-inertia", "The same with the reference wheel", "Flywheel, crank, cover, plate, pulley and accessories." {}

    output REV_TIME: Time, "s", "rev-time", "Free revs take", "Full throttle out of gear, from the lower to the upper speed." {}
    output REFERENCE_REV_TIME: Time, "s", "reference-rev-time", "Free revs with the reference wheel", "Full throttle out of gear, from the lower to the upper speed." {}
    output REV_GAIN: Ratio, "%", "rev-gain", "Revs quicker by", "Share of the reference's time that is saved." { digits(2) }
    output DROP_TIME: Time, "s", "drop-time", "Falls back in", "Throttle shut out of gear, from the upper to the lower speed." {}
    output REFERENCE_DROP_TIME: Time, "s", "reference-drop-time", "Falls back with the reference wheel in", "Throttle shut out of gear, from the upper to the lower speed." {}
    output_column(GEARS) SHIFT_TO: RotationalSpeed, "min⁻¹", "shift-to", "Next gear asks for", "Engine speed in the next gear at the same road speed." {}
    output_column(GEARS) SHIFT_TIME: Time, "s", "shift-time", "Shift time that matches", "Lag and fall to the next gear's speed: shift so fast and nothing jerks." {}
    output_column(GEARS) REFERENCE_SHIFT_TIME: Time, "s", "reference-shift-time", "The same with the reference wheel", "Lag and fall to the next gear's speed." {}
    output_column(GEARS) EQUIVALENT_MASS: Mass, "kg", "equivalent-mass", "Engine's inertia holds back like", "So much more mass of the car in this gear." {}
    output_column(GEARS) REFERENCE_EQUIVALENT_MASS: Mass, "kg", "reference-equivalent-mass", "The same with the reference wheel", "So much more mass of the car in this gear." {}
    output_column(GEARS) EQUIVALENT_SHARE: Ratio, "%", "equivalent-share", "As a share of the car", "Of its mass with driver." {}
    output_column(GEARS) REFERENCE_EQUIVALENT_SHARE: Ratio, "%", "reference-equivalent-share", "That share with the reference wheel", "Of its mass with driver." {}
    output_column(GEARS) GEAR_TIME: Time, "s", "gear-time", "Pulls through the range in", "Full throttle on the level in this gear." {}
    output_column(GEARS) REFERENCE_GEAR_TIME: Time, "s", "reference-gear-time", "Pulls through with the reference wheel in", "Full throttle on the level in this gear." {}
    output_column(GEARS) GEAR_GAIN: Ratio, "%", "gear-gain", "Quicker in this gear by", "Share of the reference's time that is saved." { digits(2) }

    output TORQUE_AT_LAUNCH: Torque, "N·m", "torque-at-launch", "Torque at the launch speed", "Of the curve, at full throttle." {}
    output LAUNCH_LEFT: RotationalSpeed, "min⁻¹", "launch-left", "Engine speed left after a dump", "The clutch let in at once in first, tyres gripping, throttle not helping." {
        at_least(STALL_SPEED.id, Some(IDLE.id)) caution("It frees the engine; it also stalls it.")
    }
    output REFERENCE_LAUNCH_LEFT: RotationalSpeed, "min⁻¹", "reference-launch-left", "The same with the reference wheel", "The clutch let in at once in first." {}
    output DUMP_TIME: Time, "s", "dump-time", "A dump slips for", "Until both sides turn alike." {}
    output REFERENCE_DUMP_TIME: Time, "s", "reference-dump-time", "A dump with the reference wheel slips for", "Until both sides turn alike." {}
    output DUMP_HEAT: Energy, "kJ", "dump-heat", "Heat of a dump", "In facings, plate and wheel together." {}
    output REFERENCE_DUMP_HEAT: Energy, "kJ", "reference-dump-heat", "Heat of a dump with the reference wheel", "In facings, plate and wheel together." {}
    output SLIP_HEAT: Energy, "kJ", "slip-heat", "Heat of a slip at held speed", "Engine held at the launch speed until the car has caught up; the same for any flywheel." {}
    output PLATE_RISE: TemperatureRise, "K", "plate-rise", "It warms by", "The metal next to the facings, by one such slip." {}

    output IDLE_SWING: Energy, "J", "idle-swing", "Energy swinging at idle", "Into the flywheel and out again, twice a turn." {}
    output UNEVENNESS: Ratio, "%", "unevenness", "Idle is uneven by", "Highest less lowest speed in a turn, by the mean. A floor: strokes that burn unlike come on top." {}
    output REFERENCE_UNEVENNESS: Ratio, "%", "reference-unevenness", "Uneven with the reference wheel by", "Highest less lowest speed in a turn, by the mean." {}
    output ROUGHER: Ratio, "", "rougher", "Idles as uneven, times", "Against the reference wheel at the same speed." {}
    output EVEN_IDLE: RotationalSpeed, "min⁻¹", "even-idle", "Idle as even as with the reference", "Set the idle here and it runs as evenly as the reference does at the idle given." {}

    output MISSED_SHIFT: RotationalSpeed, "min⁻¹", "missed-shift", "A missed shift turns it at", "At redline, one gear too low instead of one up: the worst pair of gears." { digits(4) }
    output OVERSPEED: RotationalSpeed, "min⁻¹", "overspeed", "Overspeed", "The larger of the missed shift and the margin over the redline." { digits(4) }
    output FACTOR: Ratio, "", "factor", "Factor on strength at redline", "Strength of the metal by its largest stress, beside a bolt hole or at the bore." {
        at_least(FACTOR_WANTED.id, Some(FACTOR_NEAR.id)) rests_on(&[MATERIAL.id])
        caution(NO_TEST)
    }
    output OVERSPEED_FACTOR: Ratio, "", "overspeed-factor", "Factor on strength at the overspeed", "Under 1 the edges of the holes give." {}
    output OVERSPEED_OUTCOME: Outcome, "", "overspeed-outcome", "At the overspeed it", "A tough metal gives at the edge of a hole, a brittle one cracks there." {
        verdicts(&[Verdict::Within, Verdict::Near, Verdict::Beyond]) rests_on(&[MATERIAL.id])
        caution(PROOF)
    }
    output BURST_SPEED: RotationalSpeed, "min⁻¹", "burst-speed", "Would burst at", "Where the pull averaged over the whole section reaches the tensile strength." {}
    output BURST_FACTOR: Ratio, "", "burst-factor", "Burst speed against the overspeed", "2 on speed is 4 on stress." {
        at_least(BURST_WANTED.id, Some(BURST_NEAR.id)) rests_on(&[MATERIAL.id])
        caution(CAST)
    }
    output BORE_STRESS: Pressure, "MPa", "bore-stress", "Stress at the bore, redline", "Along the rim's direction, where a plain ring has most." {}
    output RIM_STRESS: Pressure, "MPa", "rim-stress", "Stress at the outside, redline", "Along the rim's direction." {}
    output RADIAL_STRESS: Pressure, "MPa", "radial-stress", "Largest stress outwards, redline", "Between bore and outside." {}
    output PEAK_STRESS: Pressure, "MPa", "peak-stress", "Largest stress, redline", "Beside a bolt hole or at the bore." {}
    output OVERSPEED_STRESS: Pressure, "MPa", "overspeed-stress", "Largest stress at the overspeed", "Beside a bolt hole or at the bore." {}
    output AVERAGE_STRESS: Pressure, "MPa", "average-stress", "Average stress at the overspeed", "Along the rim's direction, over a cut through the axis." {}
    output STORED_ENERGY: Energy, "kJ", "stored-energy", "Energy in the flywheel", "At the highest engine speed." {
        caution(NO_TEST)
    }
    output ENERGY_AS_SPEED: Velocity, "km/h", "energy-as-speed", "As much as the whole car has at", "The same energy, as the car rolling." {}
    output ENERGY_AS_HEIGHT: Length, "m", "energy-as-height", "Enough to throw the wheel up by", "The same energy, as the wheel thrown." {}

    output RATTLE_FREQUENCY: Frequency, "Hz", "rattle-frequency", "Gearbox swings against the engine at", "On the driven plate's springs." {}
    output RATTLE_SPEED: RotationalSpeed, "min⁻¹", "rattle-speed", "Gearbox rattles most at", "Where the firing meets that swing. A two-mass flywheel keeps it under the idle." {}

    output REFERENCE_FROM_GYRATION: Inertia, "kg·m²", "reference-from-gyration", "Reference inertia by mass and radius of gyration", "Mass times radius of gyration squared." {}
    output INERTIA_FROM_GYRATION: Inertia, "kg·m²", "inertia-from-gyration", "Inertia by mass and radius of gyration", "Mass times radius of gyration squared." {}
    output_column(RINGS) RING_MASS: Mass, "kg", "mass", "Mass", "Of this ring." {}
    output_column(RINGS) RING_INERTIA: Inertia, "kg·m²", "inertia", "Inertia", "Of this ring about the axis." {}
    output_column(HOLES) HOLES_MASS: Mass, "kg", "mass", "Mass taken away", "By these holes, less what is put into them." {}
    output_column(HOLES) HOLES_INERTIA: Inertia, "kg·m²", "inertia", "Inertia taken away", "By these holes, less what is put into them." {}
    output MASS_FROM_SECTIONS: Mass, "kg", "mass-from-sections", "Mass by the sizes", "Of all rings, less the holes." {}
    output INERTIA_FROM_SECTIONS: Inertia, "kg·m²", "inertia-from-sections", "Inertia by the sizes", "Of all rings, less the holes." {}
    output GYRATION_FROM_SECTIONS: Length, "mm", "gyration-from-sections", "Radius of gyration by the sizes", "Of all rings, less the holes." {}
    output OUTER_FROM_SECTIONS: Length, "mm", "outer-from-sections", "Outside diameter by the sizes", "Of the largest ring." { digits(4) }
    output BORE_FROM_SECTIONS: Length, "mm", "bore-from-sections", "Bore by the sizes", "Of the smallest ring." {}
    output BOLT_CIRCLE_FROM_SECTIONS: Length, "mm", "bolt-circle-from-sections", "Innermost circle of holes", "Where the crank bolts usually are." {}
    output SCALES: Agreement, "", "scales", "Sizes against the scales", "Where the sizes make the inertia, their mass should be that on the scales." {
        verdicts(&[Verdict::Within, Verdict::Near, Verdict::Within])
    }
    output_column(RINGS) RING_JOINED: Touching, "", "joined", "Against the rest", "A ring lies beside another or around it, within half a millimetre." {
        verdicts(&[Verdict::Within, Verdict::Near, Verdict::Within])
    }
    output SWING_PERIOD: Time, "s", "swing-period", "One swing takes", "There and back." { digits(4) }
    output INERTIA_FROM_SWING: Inertia, "kg·m²", "inertia-from-swing", "Inertia by the swing", "From mass, radius, string and time." {
        caution("Hang it low, over something soft, on three sound cords.")
    }
    output SWING_DOUBT: Inertia, "kg·m²", "swing-doubt", "Give or take", "From all the readings' give and take." { digits(2) }
    output SWING_DOUBT_SHARE: Ratio, "%", "swing-doubt-share", "Give or take, as a share", "Of the inertia by the swing." { digits(2) }
    output SWING_DECIDES: Reading, "", "swing-decides", "Measure better", "The reading that the doubt hangs on most." {}
}
