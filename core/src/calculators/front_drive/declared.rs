//! Every input and output of the front drive.

use super::belt_path::Side;
use super::pump::CapPlace;
use super::sketches;
use super::tangent::Hand;
use crate::calculators::car::{HIGHEST_SPEED, IDLE};
use crate::calculators::{flywheel, wiring};
use crate::measure::Guide;
use crate::quantity::{
    Angle, AngularAcceleration, Current, Density, Flow, Force, Frequency, Inertia, Length, LinearDensity, Power, Pressure, Ratio,
    RotationalSpeed, Temperature, TemperatureRise, Torque, Velocity, Volume,
};
use crate::spec::Cell::{Choice, Number, Text};
use crate::spec::Source::{CommonPractice, FromMemory, Judgement, Standard};
use crate::spec::{Id, Verdict, Words};
use crate::{choices, declare};

choices! {
    /// What a pulley is there for.
    Duty {
        Crank "crank" "crank"
        Alternator "alternator" "alternator"
        Pump "pump" "water pump"
        Idler "idler" "idler"
        Tensioner "tensioner" "tensioner"
        Other "other" "another driven accessory"
    }
}

choices! {
    /// The way a pulley has to turn.
    TurnNeeded {
        Either "either" "either way"
        WithCrank "with-crank" "the crank's way"
        AgainstCrank "against-crank" "against the crank"
    }
}

choices! {
    /// Whether a pulley turns the way it has to.
    TurnFits {
        Right "right" "the right way"
        Wrong "wrong" "the wrong way"
        /// A pump has one right way, and nobody said which.
        Unchecked "unchecked" "unchecked"
    }
}

choices! {
    /// The way the belt runs through the list of pulleys.
    BeltRuns {
        AsListed "as-listed" "in the order listed"
        Backwards "backwards" "against the order listed"
    }
}

choices! {
    /// What keeps the belt tight.
    AdjusterType {
        Locked "locked" "set, then locked"
        Sprung "sprung" "a spring"
    }
}

choices! {
    /// State of the belt's faces.
    BeltState {
        Dry "dry" "dry"
        Wet "wet" "wet"
    }
}

/// What the pull of every pulley hangs on.
const PULLS: &[Id] = &[LOW_CURRENT.id, RATED_CURRENT.id, ALTERNATOR_ROTOR.id, PUMP_POWER.id, PUMP_ROTOR.id];
/// What the alternator makes hangs on its plate.
const MADE: &[Id] = &[LOW_CURRENT.id, RATED_CURRENT.id];
/// What the onset of cavitation hangs on, wherever the cap sits.
const SUCTION: &[Id] = &[PUMP_NPSH.id, SUCTION_LOSS.id, GAS_VOLUME.id, HEADER_HEIGHT.id];

declare! {
    calculator crate::calculators::FRONT_DRIVE_PLACE;
    tables {
        PULLEYS: "pulleys", "Pulleys", "Every pulley the belt touches, in the order it runs over them; either way round.", 2..=12, &[
            &[Text("Crank"), Choice(0), Number(0.0), Number(0.0), Choice(0)],
            &[Text("Alternator"), Choice(1), Number(145.0), Number(185.0), Choice(0)],
            &[Text("Idler"), Choice(3), Number(62.0), Number(165.0), Choice(1)],
            &[Text("Water pump"), Choice(2), Number(50.0), Number(280.0), Choice(0)],
        ];
    }

    input CRANK_PULLEY: Length, "mm", "crank-pulley", "Crank pulley", "Effective diameter: calliper over the ribs, not over the lips beside them; or the maker's." {
        default(140.0, CommonPractice) possible(20.0, 500.0) usual(100.0, 180.0, 1.0) sketched(&sketches::PULLEY) group("Pulleys") of_the_car() matters()
        caution("If this pulley is the crank's vibration damper, removing it can break the crank.")
    }
    input ALTERNATOR_PULLEY: Length, "mm", "alternator-pulley", "Alternator pulley", "Effective diameter: calliper over the ribs, not over the lips beside them; or the maker's." {
        default(60.0, CommonPractice) possible(20.0, 300.0) usual(45.0, 80.0, 0.5) sketched(&sketches::PULLEY) group("Pulleys") of_the_car() matters()
    }
    input PUMP_PULLEY: Length, "mm", "pump-pulley", "Pump pulley", "Of the pulley you mean to fit: calliper over the ribs, or over the plain face where the belt's back runs on it." {
        default(125.0, CommonPractice) possible(20.0, 500.0) usual(80.0, 160.0, 1.0) sketched(&sketches::PULLEY) group("Pulleys") of_the_car() matters()
    }
    input REFERENCE_PUMP_PULLEY: Length, "mm", "reference-pump-pulley", "Reference pump pulley", "Diameter of the pulley the pump was made for: calliper on the one that comes off." {
        default(118.0, CommonPractice) possible(20.0, 500.0) usual(80.0, 160.0, 1.0) group("Pulleys") of_the_car()
    }
    input REFERENCE_CRANK_PULLEY: Length, "mm", "reference-crank-pulley", "Reference crank pulley", "Effective diameter of the crank pulley that went with it: calliper over the ribs." {
        possible(20.0, 500.0) usual(100.0, 180.0, 1.0) follows(CRANK_PULLEY.id) group("Pulleys")
    }
    input CRANK_TURNS: Hand, "", "crank-turns", "The crank turns", "Seen from the front of the engine, facing the pulleys." {
        default(0.0, CommonPractice) group("Pulleys")
    }

    column(PULLEYS) NAME: Words, "", "name", "Name", "What you call this pulley." { text(24) group("Pulleys") }
    column(PULLEYS) DUTY: Duty, "", "duty", "Belongs to", "What the pulley belongs to." { default(3.0, CommonPractice) group("Pulleys") }
    column(PULLEYS) X: Length, "mm", "x", "Distance right of the crank", "From the crank's centre to this one's, to the right, seen from the front. Measure with a straight edge across both bolts." {
        default(120.0, Judgement) possible(-2000.0, 2000.0) usual(-350.0, 350.0, 1.0) sketched(&sketches::PLACE) group("Pulleys") of_the_car()
    }
    column(PULLEYS) Y: Length, "mm", "y", "Height above the crank", "From the crank's centre to this one's, upwards: spirit level from one bolt, rule to the other." {
        default(80.0, Judgement) possible(-2000.0, 2000.0) usual(-200.0, 400.0, 1.0) sketched(&sketches::PLACE) group("Pulleys") of_the_car()
    }
    column(PULLEYS) SIDE: Side, "", "side", "Pulley is", "Grooved pulleys run inside the belt, smooth ones outside on its back." { default(0.0, CommonPractice) group("Pulleys") }
    column(PULLEYS) DIAMETER: Length, "mm", "diameter", "Diameter", "Over the ribs of a grooved pulley, plain of a smooth one. Crank, alternator and pump take theirs from above." {
        default(65.0, CommonPractice) possible(20.0, 500.0) usual(45.0, 180.0, 0.5)
        follows_by(DUTY.id, &[(0, CRANK_PULLEY.id), (1, ALTERNATOR_PULLEY.id), (2, PUMP_PULLEY.id)]) sketched(&sketches::PULLEY) group("Pulleys")
    }
    column(PULLEYS) OFFSET: Length, "mm", "offset", "Out of line", "How far its grooves stand in front of the crank's; behind is negative. Straight edge across the crank pulley's face." {
        default(0.0, CommonPractice) possible(-100.0, 100.0) usual(-3.0, 3.0, 0.1) sketched(&sketches::IN_LINE) group("Pulleys")
    }
    column(PULLEYS) TURN_NEEDED: TurnNeeded, "", "turn-needed", "Has to turn", "Look for the arrow on a pump or at the slant of a fan's blades." { default(0.0, CommonPractice) group("Pulleys") }
    column(PULLEYS) LOAD: Torque, "N·m", "load", "Torque it takes", "Of an accessory other than alternator and pump, at its own shaft: a lever and a luggage scale, or its maker." {
        default(0.0, CommonPractice) possible(0.0, 200.0) usual(0.0, 20.0, 0.1) group("Pulleys")
    }
    column(PULLEYS) ROTOR: Inertia, "kg·m²", "rotor", "Rotor inertia", "Of everything that turns on this shaft: half its mass times radius squared for a solid disc. Nothing for an idler." {
        default(0.0, Judgement) possible(0.0, 0.1) usual(0.0, 0.005, 0.0001)
        follows_by(DUTY.id, &[(1, ALTERNATOR_ROTOR.id), (2, PUMP_ROTOR.id)]) group("Pulleys")
    }
    column(PULLEYS) LEAST_WRAP: Angle, "°", "least-wrap", "Least wrap", "Belt has to lie on it over this angle; the belt's maker may ask for more." {
        default(60.0, CommonPractice) possible(0.0, 300.0) usual(40.0, 180.0, 5.0)
        follows_by(DUTY.id, &[(0, LEAST_WRAP_CRANK.id), (1, LEAST_WRAP_ALTERNATOR.id), (2, LEAST_WRAP_PUMP.id), (5, LEAST_WRAP_PUMP.id)]) group("Limits")
    }
    column(PULLEYS) SPEED_LIMIT: RotationalSpeed, "min⁻¹", "speed-limit", "Most it may turn", "From the maker of the part or its bearing." {
        default(17_000.0, Judgement) possible(100.0, 60_000.0) usual(6000.0, 20_000.0, 100.0)
        follows_by(DUTY.id, &[(1, ALTERNATOR_LIMIT.id), (2, PUMP_LIMIT.id)]) group("Limits")
    }
    column(PULLEYS) LEAST_DIAMETER: Length, "mm", "least-diameter", "Least diameter", "Smaller pulleys bend the belt too sharply." {
        default(45.0, Standard("ISO 9981:2020")) possible(0.0, 300.0) usual(30.0, 100.0, 1.0)
        follows_by(SIDE.id, &[(0, LEAST_GROOVED.id), (1, LEAST_SMOOTH.id)]) group("Limits")
    }

    input LINE_DIFFERENCE: Length, "mm", "line-difference", "Line difference", "How far the belt's cord runs outside the effective diameter, on the radius: from the belt's data sheet." {
        default(2.0, Standard("ISO 9981:2020, 5.4, nominal")) possible(0.0, 5.0) usual(0.0, 2.5, 0.1) sketched(&sketches::CORD) group("Belt")
    }
    input LINE_DIFFERENCE_MEASURED: Length, "mm", "line-difference-measured", "Line difference as belts measure", "The lower figure, to see what the nominal one may hide." {
        default(1.2, FromMemory("measurements of PK belts, 1.2 to 1.6 mm")) possible(0.0, 5.0) usual(0.0, 2.5, 0.1) group("Belt")
    }
    input BACK_TO_CORD: Length, "mm", "back-to-cord", "Belt back to cord", "How far the cord runs from the belt's smooth back: rule on a cut belt." {
        default(1.5, Judgement) possible(0.0, 5.0) usual(1.0, 2.0, 0.1) group("Belt")
    }
    input SLIP: Ratio, "%", "slip", "Slip and creep", "Share of speed lost between crank and a driven pulley, by a tachometer on both. A sound belt loses under one per cent." {
        default(0.0, CommonPractice) possible(0.0, 20.0) usual(0.0, 3.0, 0.1) group("Belt")
    }
    input RIBS: Ratio, "", "ribs", "Ribs", "Count them on the belt: the first number of its name." { default(6.0, CommonPractice) possible(1.0, 20.0) usual(3.0, 8.0, 1.0) whole() group("Belt") of_the_car() }
    input RIB_MASS: LinearDensity, "g/m", "rib-mass", "Belt mass for each rib", "Weigh a belt and divide by its length and its ribs." {
        default(22.0, CommonPractice) possible(1.0, 200.0) usual(16.0, 25.0, 0.5) group("Belt")
    }
    input RIB_TENSION: Force, "N", "rib-tension", "Tension for each rib", "Of one strand, standing still: 100 N run in, 140 N new. By ear, or a belt gauge; with a spring, what the spring keeps." {
        default(100.0, CommonPractice) possible(0.0, 1000.0) usual(70.0, 160.0, 5.0) sketched(&sketches::SPAN) group("Belt") guided(Guide::Tone)
        caution("Engine off, key out, hair, hands and sleeves clear.")
    }
    input BELT_STATE: BeltState, "", "belt-state", "The belt is", "Spray and coolant halve the grip: look at it after a wet drive." { default(0.0, CommonPractice) group("Belt") }
    input FRICTION_DRY: Ratio, "", "friction-dry", "Flank friction, dry", "Rubber on the pulley's flanks: the belt maker's figure, if he gives one." {
        default(0.30, CommonPractice) possible(0.01, 2.0) usual(0.25, 0.5, 0.01) group("Belt")
    }
    input FRICTION_WET: Ratio, "", "friction-wet", "Flank friction, wet", "Rubber on the pulley's flanks with water between: the belt maker's figure, if he gives one." {
        default(0.15, CommonPractice) possible(0.01, 2.0) usual(0.10, 0.25, 0.01) group("Belt")
    }
    input MOST_TENSION_RATIO: Ratio, "", "most-tension-ratio", "Tension ratio to trust", "Tight over slack strand that a half turn may be trusted with; wedge friction alone would promise far more." {
        default(4.0, CommonPractice) possible(1.0, 50.0) usual(3.0, 5.0, 0.1) group("Belt")
    }
    input ENGINE_INERTIA: Inertia, "kg·m²", "engine-inertia", "Inertia that revs with the engine", "Crank, flywheel, cover, plate and accessories: the flywheel's total, unless typed." {
        possible(0.01, 5.0) usual(0.1, 0.25, 0.005) follows(flywheel::ENGINE_INERTIA.id) group("Belt")
    }

    input ADJUSTER_TYPE: AdjusterType, "", "adjuster-type", "Kept tight by", "A pulley that is set and locked, or one that a spring keeps pressing." { default(0.0, CommonPractice) group("Adjuster") }
    input ADJUSTER: Duty, "", "adjuster", "Pulley that moves", "The first of this duty in the list." { default(1.0, CommonPractice) group("Adjuster") }
    input ADJUSTER_WAY: Angle, "°", "adjuster-way", "It moves towards", "Direction that tightens, counted anticlockwise from the right, seen from the front: 90° is upwards." {
        default(45.0, CommonPractice) possible(-360.0, 360.0) usual(-180.0, 180.0, 1.0) group("Adjuster") of_the_car()
    }
    input ADJUSTER_LOOSE: Length, "mm", "adjuster-loose", "Travel that slackens", "Rule along the slot, from the bolt as drawn to the loose end." {
        default(15.0, CommonPractice) possible(0.0, 200.0) usual(0.0, 40.0, 1.0) group("Adjuster") of_the_car()
    }
    input ADJUSTER_TIGHT: Length, "mm", "adjuster-tight", "Travel that tightens", "Rule along the slot, from the bolt as drawn to the tight end." {
        default(20.0, CommonPractice) possible(0.0, 200.0) usual(0.0, 40.0, 1.0) group("Adjuster") of_the_car()
    }
    input FITTING_SLACK: Length, "mm", "fitting-slack", "Slack to fit the belt", "Belt to spare with the adjuster at its loose end: what it takes to slip it over the last pulley." {
        default(5.0, CommonPractice) possible(0.0, 100.0) usual(5.0, 15.0, 1.0) group("Adjuster")
    }
    input STRETCH: Ratio, "%", "stretch", "Stretch to take up", "Share of its length a belt grows in service: its maker's, or the old belt against its name." {
        default(1.0, CommonPractice) possible(0.0, 10.0) usual(0.5, 1.5, 0.1) group("Adjuster")
    }
    input LENGTH_STEP: Length, "mm", "length-step", "Belts come in steps of", "Lengths your supplier keeps." {
        default(5.0, CommonPractice) possible(0.5, 100.0) usual(1.0, 10.0, 1.0) group("Adjuster")
    }
    input BELT_LENGTH: Length, "mm", "belt-length", "Belt", "Effective length, the number in its name: 1195 of 6PK1195." {
        possible(100.0, 10_000.0) usual(600.0, 2500.0, 1.0) follows(SUGGESTED_BELT.id) group("Adjuster")
    }

    input LOW_SPEED: RotationalSpeed, "min⁻¹", "low-speed", "First rated speed", "Alternator speed of the lower current on its plate." {
        default(1500.0, FromMemory("ISO 8854")) possible(100.0, 20_000.0) usual(1500.0, 1800.0, 100.0) group("Alternator")
    }
    input LOW_CURRENT: Current, "A", "low-current", "Current at the first rated speed", "The first number on its plate: 26 of 26/50A." {
        default(26.0, Judgement) possible(0.1, 500.0) usual(20.0, 60.0, 1.0) group("Alternator") of_the_car()
    }
    input RATED_SPEED: RotationalSpeed, "min⁻¹", "rated-speed", "Second rated speed", "Alternator speed of the higher current on its plate." {
        default(6000.0, FromMemory("ISO 8854")) possible(200.0, 30_000.0) usual(5000.0, 7000.0, 100.0) group("Alternator")
    }
    input RATED_CURRENT: Current, "A", "rated-current", "Current at the second rated speed", "The second number on its plate: 50 of 26/50A." {
        default(50.0, Judgement) possible(0.1, 1000.0) usual(35.0, 120.0, 1.0) group("Alternator") of_the_car()
    }
    input CUT_IN: RotationalSpeed, "min⁻¹", "cut-in", "Starts to charge at", "Raise the engine speed slowly: where the charge lamp goes out, times the ratio to the alternator." {
        default(1000.0, CommonPractice) possible(0.0, 10_000.0) usual(800.0, 1300.0, 50.0) group("Alternator")
    }
    input HOT_FACTOR: Ratio, "", "hot-factor", "Output when hot", "Clamp meter, everything on, after half an hour's drive, over the cold reading at the same speed." {
        default(0.80, CommonPractice) possible(0.1, 1.0) usual(0.70, 0.90, 0.01) group("Alternator")
    }
    input EFFICIENCY: Ratio, "", "efficiency", "Efficiency", "Electrical power out for shaft power in: its maker's curve." {
        default(0.57, CommonPractice) possible(0.1, 1.0) usual(0.50, 0.70, 0.01) group("Alternator")
    }
    input ALTERNATOR_ROTOR: Inertia, "kg·m²", "alternator-rotor", "Rotor inertia of the alternator", "Rotor, fan and pulley: half the rotor's mass times its radius squared comes close." {
        default(0.0015, Judgement) possible(0.0, 0.1) usual(0.001, 0.004, 0.0001) group("Alternator")
    }
    input LOAD_IDLE: Current, "A", "load-idle", "Current drawn at idle", "Everything that runs at a night's idle, averaged; a fan by its share of the time. Clamp meter on the battery lead." {
        possible(0.0, 500.0) usual(5.0, 50.0, 1.0) follows(wiring::LOAD_AT_IDLE.id) group("Alternator")
    }
    input LOAD_CRUISE: Current, "A", "load-cruise", "Current drawn at cruise", "Everything that runs on a wet night's drive, averaged. Clamp meter on the battery lead, engine off, all of it on." {
        possible(0.0, 500.0) usual(5.0, 60.0, 1.0) follows(wiring::LOAD_AT_CRUISE.id) group("Alternator")
    }

    input PUMP_RATED_SPEED: RotationalSpeed, "min⁻¹", "pump-rated-speed", "Pump data are for", "Pump speed of the four figures below, off the same sheet." {
        default(6000.0, CommonPractice) possible(500.0, 20_000.0) usual(4000.0, 7000.0, 100.0) group("Water pump")
    }
    input PUMP_FLOW: Flow, "L/min", "pump-flow", "Flow", "Through the engine at that speed, thermostat open: the pump's maker, or a flow meter in the top hose." {
        default(100.0, Judgement) possible(1.0, 1000.0) usual(80.0, 160.0, 5.0) group("Water pump")
    }
    input PUMP_POWER: Power, "kW", "pump-power", "Shaft power", "It takes at that speed: the pump maker's curve." {
        default(1.0, Judgement) possible(0.0, 20.0) usual(0.5, 2.0, 0.1) group("Water pump")
    }
    input PUMP_NPSH: Length, "m", "pump-npsh", "Suction head required", "NPSH at that speed and flow: the head over vapour pressure it needs at its inlet. The pump maker's curve." {
        default(3.0, Judgement) possible(0.0, 50.0) usual(1.5, 6.0, 0.1) group("Water pump")
    }
    input SUCTION_LOSS: Pressure, "kPa", "suction-loss", "Loss of the suction pipe", "From the tank to the pump at that speed: a gauge at the pump's inlet, against one at the tank." {
        default(15.0, Judgement) possible(0.0, 200.0) usual(5.0, 30.0, 1.0) group("Water pump")
    }
    input RADIATOR_LOSS: Pressure, "kPa", "radiator-loss", "Loss of the radiator", "At that speed, gauges before and after it; counts when the cap sits on the hot tank." {
        default(25.0, Judgement) possible(0.0, 300.0) usual(10.0, 50.0, 1.0) group("Water pump")
    }
    input PUMP_ROTOR: Inertia, "kg·m²", "pump-rotor", "Rotor inertia of the pump", "Impeller, shaft and pulley: half the pulley's mass times its radius squared is most of it." {
        default(0.0008, Judgement) possible(0.0, 0.1) usual(0.0003, 0.002, 0.0001) group("Water pump")
    }
    input HEAT_IDLE: Power, "kW", "heat-idle", "Heat into the coolant at idle", "4 to 8 kW warm. To measure: flow at idle times the rise across the engine, 4 kW for each L/s and kelvin." {
        default(6.0, Judgement) possible(0.1, 100.0) usual(3.0, 12.0, 0.5) group("Water pump")
    }

    input CAP: Pressure, "bar", "cap", "Pressure cap", "Stamped on it: 1.1 bar or 16 psi." {
        default(1.1, CommonPractice) possible(0.0, 2.0) usual(0.5, 1.5, 0.1) group("Coolant") of_the_car()
    }
    input CAP_PLACE: CapPlace, "", "cap-place", "The cap sits", "Where the pressure is held: what lies between it and the pump takes some of it away." { default(0.0, CommonPractice) group("Coolant") }
    input INLET_TEMPERATURE: Temperature, "°C", "inlet-temperature", "Coolant at the pump's inlet", "At work, hard driven: a probe on the bottom hose, under its clip." {
        default(95.0, CommonPractice) possible(1.0, 130.0) usual(80.0, 110.0, 1.0) group("Coolant")
    }
    input GLYCOL: Ratio, "%", "glycol", "Glycol by volume", "Ethylene glycol in the water: a refractometer or the can's label." {
        default(50.0, CommonPractice) possible(0.0, 60.0) usual(0.0, 60.0, 5.0) group("Coolant")
    }
    input COOLANT_VOLUME: Volume, "L", "coolant-volume", "Coolant in the system", "As much as went in." {
        default(6.0, CommonPractice) possible(0.5, 50.0) usual(4.0, 10.0, 0.5) group("Coolant")
    }
    input GAS_VOLUME: Volume, "L", "gas-volume", "Air above the coolant, cold", "In header tank and bottle under the cap: what more goes in to the brim, cold." {
        default(0.8, Judgement) possible(0.0, 20.0) usual(0.3, 2.0, 0.1) group("Coolant")
    }
    input FILL_TEMPERATURE: Temperature, "°C", "fill-temperature", "Temperature when closed", "Of the coolant when the cap went on: the day's, for a cold fill." {
        default(20.0, CommonPractice) possible(0.0, 60.0) usual(5.0, 35.0, 1.0) group("Coolant")
    }
    input HEADER_HEIGHT: Length, "mm", "header-height", "Coolant level above the pump", "From the pump's inlet up to the surface in the tank: rule and spirit level, car level." {
        default(150.0, Judgement) possible(-1000.0, 3000.0) usual(0.0, 400.0, 10.0) group("Coolant")
    }

    input ALTERNATOR_LIMIT: RotationalSpeed, "min⁻¹", "alternator-limit", "Most the alternator may turn", "From its maker; old ones with open fans 12 000 to 15 000." {
        default(18_000.0, CommonPractice) possible(1000.0, 40_000.0) usual(12_000.0, 20_000.0, 100.0) group("Limits")
    }
    input ALTERNATOR_NEAR: RotationalSpeed, "min⁻¹", "alternator-near", "Alternator speed that is near", "Above it one is running out of room." {
        default(16_500.0, CommonPractice) possible(1000.0, 40_000.0) usual(11_000.0, 19_000.0, 100.0) group("Limits")
    }
    input IDLE_WANTED: RotationalSpeed, "min⁻¹", "alternator-idle-wanted", "Alternator speed wanted at idle", "Below it little charge is left." {
        default(1800.0, CommonPractice) possible(0.0, 10_000.0) usual(1800.0, 2400.0, 50.0) group("Limits")
    }
    input PUMP_LIMIT: RotationalSpeed, "min⁻¹", "pump-limit", "Most the pump may turn", "Bearing and seal; from its maker." {
        default(9000.0, Judgement) possible(500.0, 30_000.0) usual(7000.0, 10_000.0, 100.0) group("Limits")
    }
    input LEAST_BALANCE: Current, "A", "least-balance", "Charge the battery must keep", "Below it the battery runs down." {
        default(0.0, CommonPractice) possible(-100.0, 100.0) usual(0.0, 10.0, 1.0) group("Limits")
    }
    input CHARGE_ALLOWANCE: Current, "A", "charge-allowance", "Charge the battery wants", "To come back from a start." {
        default(5.0, CommonPractice) possible(0.0, 100.0) usual(2.0, 10.0, 1.0) group("Limits")
    }
    input BELT_SPEED_NEAR: Velocity, "m/s", "belt-speed-near", "Belt speed that is near", "Above it grip fades fast." {
        default(50.0, CommonPractice) possible(1.0, 200.0) usual(40.0, 60.0, 1.0) group("Limits")
    }
    input BELT_SPEED_LIMIT: Velocity, "m/s", "belt-speed-limit", "Most the belt may run", "The belt's own weight takes its grip." {
        default(60.0, CommonPractice) possible(1.0, 200.0) usual(45.0, 70.0, 1.0) group("Limits")
    }
    input LEAST_WRAP_CRANK: Angle, "°", "least-wrap-crank", "Least wrap, crank", "Belt has to lie on it over this angle." {
        default(150.0, CommonPractice) possible(0.0, 300.0) usual(100.0, 180.0, 5.0) group("Limits")
    }
    input LEAST_WRAP_ALTERNATOR: Angle, "°", "least-wrap-alternator", "Least wrap, alternator", "Belt has to lie on it over this angle." {
        default(120.0, CommonPractice) possible(0.0, 300.0) usual(90.0, 160.0, 5.0) group("Limits")
    }
    input LEAST_WRAP_PUMP: Angle, "°", "least-wrap-pump", "Least wrap, pump and others", "Belt has to lie on it over this angle." {
        default(90.0, CommonPractice) possible(0.0, 300.0) usual(60.0, 150.0, 5.0) group("Limits")
    }
    input WRAP_RESERVE: Angle, "°", "wrap-reserve", "Wrap in hand", "Less than this above the least wrap is near." {
        default(10.0, CommonPractice) possible(0.0, 90.0) usual(0.0, 30.0, 1.0) group("Limits")
    }
    input LEAST_GROOVED: Length, "mm", "least-grooved", "Least grooved pulley", "Effective diameter a ribbed belt may bend round." {
        default(45.0, Standard("ISO 9981:2020")) possible(0.0, 300.0) usual(40.0, 60.0, 1.0) group("Limits")
    }
    input LEAST_SMOOTH: Length, "mm", "least-smooth", "Least smooth pulley", "Diameter the belt's back may bend round." {
        default(60.0, CommonPractice) possible(0.0, 300.0) usual(50.0, 80.0, 1.0) group("Limits")
    }
    input LEAST_GAP: Length, "mm", "least-gap", "Least gap", "From the belt's cord to the next pulley's: some 5 mm of it is the belt itself, and belts flap." {
        default(12.0, Judgement) possible(0.0, 100.0) usual(8.0, 25.0, 1.0) group("Limits")
    }
    input MOST_MISALIGNMENT: Angle, "°", "most-misalignment", "Most misalignment", "Of any span: 0.5° is 1.7 mm in 200 mm." {
        default(0.5, CommonPractice) possible(0.0, 10.0) usual(0.3, 1.0, 0.1) group("Limits")
    }
    input LEAST_GRIP: Ratio, "", "least-grip", "Least grip", "Tension ratio a pulley can hold over what it needs: at 1 it slips." {
        default(1.0, CommonPractice) possible(0.1, 10.0) usual(1.0, 1.5, 0.05) group("Limits")
    }
    input GRIP_NEAR: Ratio, "", "grip-near", "Grip that is near", "Below it heat and age may tip it." {
        default(1.2, Judgement) possible(0.1, 20.0) usual(1.1, 2.0, 0.05) group("Limits")
    }
    input LEAST_GRIP_WET: Ratio, "", "least-grip-wet", "Least grip, wet", "Below 1 it slips until it has dried: how much of that you put up with." {
        default(0.0, Judgement) possible(0.0, 10.0) usual(0.0, 1.0, 0.05) group("Limits")
    }
    input CAVITATION_RESERVE: Ratio, "%", "cavitation-reserve", "Speed in hand to cavitation", "An onset less than this above the highest engine speed is near." {
        default(10.0, Judgement) possible(0.0, 100.0) usual(0.0, 30.0, 1.0) group("Limits")
    }
    input MOST_RISE: TemperatureRise, "K", "most-rise", "Most coolant rise at idle", "Warmer from bottom to top, the pump starves the engine." {
        default(10.0, CommonPractice) possible(0.5, 80.0) usual(6.0, 12.0, 0.5) group("Limits")
    }

    output ALTERNATOR_IDLE: RotationalSpeed, "min⁻¹", "alternator-idle-speed", "Alternator at idle", "Its speed at a warm idle." {
        at_least(IDLE_WANTED.id, None) digits(4)
    }
    output ALTERNATOR_CRUISE: RotationalSpeed, "min⁻¹", "alternator-cruise-speed", "Alternator at cruise", "Its speed at the cruising speed of the engine." { digits(4) }
    output ALTERNATOR_HIGH: RotationalSpeed, "min⁻¹", "alternator-highest-speed", "Alternator at highest", "Its speed at the highest engine speed." {
        at_most(ALTERNATOR_LIMIT.id, Some(ALTERNATOR_NEAR.id)) digits(4) caution("Allow for limiter overshoot and a missed shift.")
    }
    output ALTERNATOR_HIGH_MEASURED: RotationalSpeed, "min⁻¹", "alternator-highest-speed-measured-line", "Alternator at highest, belt line as measured", "The same with the smaller line difference that belts show: the ratio is known to about 2 %." {
        at_most(ALTERNATOR_LIMIT.id, Some(ALTERNATOR_NEAR.id)) digits(4)
    }
    output ALTERNATOR_RATIO: Ratio, "", "alternator-ratio", "Alternator ratio", "Its turns for one of the crank." {}
    output LEAST_ALTERNATOR_PULLEY: Length, "mm", "alternator-pulley-least", "Smallest alternator pulley", "Effective diameter that keeps it under its limit at the highest engine speed, and that the belt may bend round." {}
    output MOST_ALTERNATOR_PULLEY: Length, "mm", "alternator-pulley-most", "Largest alternator pulley", "Effective diameter that still reaches the speed wanted at idle." {}
    output PUMP_IDLE: RotationalSpeed, "min⁻¹", "pump-idle-speed", "Pump at idle", "Its speed at a warm idle." { digits(4) }
    output PUMP_CRUISE: RotationalSpeed, "min⁻¹", "pump-cruise-speed", "Pump at cruise", "Its speed at the cruising speed of the engine." { digits(4) }
    output PUMP_HIGH: RotationalSpeed, "min⁻¹", "pump-highest-speed", "Pump at highest", "Its speed at the highest engine speed." { at_most(PUMP_LIMIT.id, None) digits(4) }
    output PUMP_IDLE_REFERENCE: RotationalSpeed, "min⁻¹", "pump-idle-speed-reference", "Pump at idle, reference pulley", "Its speed at a warm idle with the reference pulleys." { digits(4) }
    output PUMP_HIGH_REFERENCE: RotationalSpeed, "min⁻¹", "pump-highest-speed-reference", "Pump at highest, reference pulley", "Its speed at the highest engine speed with the reference pulleys." { digits(4) }
    output PUMP_SHARE: Ratio, "%", "pump-share", "Pump speed against the reference", "What the chosen pulley gives of the reference pulley's speed, at any engine speed." {}
    output BELT_SPEED: Velocity, "m/s", "belt-speed", "Belt speed at highest", "At the highest engine speed." {
        at_most(BELT_SPEED_LIMIT.id, Some(BELT_SPEED_NEAR.id))
        caution("If this pulley is the crank's vibration damper, removing it can break the crank.")
    }
    output REFLECTED_INERTIA: Inertia, "kg·m²", "reflected-inertia", "Accessories as the crank feels them", "Inertia of every rotor on the belt, each times its ratio squared." {}

    output_column(PULLEYS) BELT_LINE: Length, "mm", "belt-line-diameter", "Belt-line diameter", "Of the belt's cord on this pulley: what ratios and lengths go by." { digits(4) }
    output_column(PULLEYS) FITTED: Length, "mm", "diameter-fitted", "Diameter fitted", "Against the least the belt may bend round." { at_least(LEAST_DIAMETER.id, None) digits(4) }
    output_column(PULLEYS) RATIO: Ratio, "", "ratio", "Ratio", "Its turns for one of the crank." {}
    output_column(PULLEYS) IDLE_SPEED: RotationalSpeed, "min⁻¹", "idle-speed", "Speed at idle", "Its speed at a warm idle." { digits(4) }
    output_column(PULLEYS) CRUISE_SPEED: RotationalSpeed, "min⁻¹", "cruise-speed", "Speed at cruise", "Its speed at the cruising speed of the engine." { digits(4) }
    output_column(PULLEYS) HIGH_SPEED: RotationalSpeed, "min⁻¹", "highest-speed", "Highest speed", "Its speed at the highest engine speed." { at_most(SPEED_LIMIT.id, None) digits(4) }
    output_column(PULLEYS) TURNS: Hand, "", "turns", "Turns", "Seen from the front of the engine." {}
    output_column(PULLEYS) TURN_FITS: TurnFits, "", "turn-fits", "It turns", "Against the way it has to." {
        verdicts(&[Verdict::Within, Verdict::Beyond, Verdict::Near]) caution("Check which way the pump must turn before you start the engine.")
    }
    output_column(PULLEYS) NEAR_WRAP: Angle, "°", "near-wrap", "Wrap that is near", "The least wrap and what one wants in hand." {}
    output_column(PULLEYS) WRAP: Angle, "°", "wrap", "Wrap", "Angle over which the belt lies on it." { at_least(LEAST_WRAP.id, Some(NEAR_WRAP.id)) }
    output_column(PULLEYS) SPAN: Length, "mm", "span", "Span to the next", "Free belt between this pulley and the next one listed." { digits(4) }
    output_column(PULLEYS) GAP: Length, "mm", "gap", "Gap", "Least distance from its belt line to any other pulley's, or to a span that passes it." { at_least(LEAST_GAP.id, None) }
    output_column(PULLEYS) MISALIGNMENT: Angle, "°", "misalignment", "Misalignment to the next", "Angle at which the belt runs across to the next pulley." { at_most(MOST_MISALIGNMENT.id, None) digits(2) }
    output_column(PULLEYS) TONE: Frequency, "Hz", "tone", "Tone of the span to the next", "Note it rings at when plucked, at the tension set: hold a phone's tuner to it." {
        caution("Engine off, key out, hair and sleeves clear.")
    }
    output_column(PULLEYS) TENSION_IDLE: Force, "N", "tension-idle", "Span tension at idle", "In the span to the next pulley, charging." {}
    output_column(PULLEYS) TENSION_HIGH: Force, "N", "tension-high", "Span tension in a free rev", "In the span to the next pulley, in a free rev through the highest speed, the belt's own centrifugal pull included." {}
    output_column(PULLEYS) GRIP_IDLE: Ratio, "", "grip-idle", "Grip at idle", "Tension ratio it can hold over the one it needs." { at_least(LEAST_GRIP.id, Some(GRIP_NEAR.id)) rests_on(PULLS) }
    output_column(PULLEYS) GRIP_HIGH: Ratio, "", "grip-high", "Grip in a free rev", "The same with every rotor spun up, just above idle or at the highest speed: the less of the two." { at_least(LEAST_GRIP.id, Some(GRIP_NEAR.id)) rests_on(PULLS) }
    output_column(PULLEYS) BEARING_LOAD: Force, "N", "bearing-load", "Load on its bearing", "Largest push of the belt: standing, idling or revving." {}

    output CORD_LENGTH: Length, "mm", "cord-length", "Belt as drawn, along its cord", "Spans and arcs together." { digits(5) }
    output DRAWN_LENGTH: Length, "mm", "drawn-length", "Belt as drawn", "Effective length, as its name would state it." { digits(5) }
    output TURNING: Angle, "°", "turning", "Belt goes round", "Grooved wraps less smooth ones: 360° for a belt that closes." { digits(4) }
    output PULLEY_GAP: Length, "mm", "pulley-gap", "Least gap between pulleys", "Belt line to belt line." { at_least(LEAST_GAP.id, None) }
    output SPAN_GAP: Length, "mm", "span-gap", "Least gap of a span", "To any pulley it does not run on, belt line to belt line." {}
    output BELT_RUNS: BeltRuns, "", "belt-runs", "The belt runs", "Through the list of pulleys, as the crank turns." {}
    output SHORTEST_BELT: Length, "mm", "shortest-belt", "Shortest belt", "Effective length that is tight with the adjuster at its loose end." { digits(5) }
    output LONGEST_BELT: Length, "mm", "longest-belt", "Longest belt", "Effective length that is tight with the adjuster at its tight end." { digits(5) }
    output SUGGESTED_BELT: Length, "mm", "suggested-belt", "Belt that suits", "Effective length nearest to the drawn one that goes on and takes up its stretch." { digits(5) }
    output BELT_SLACK: Length, "mm", "belt-slack", "Slack to fit it", "Belt to spare with the adjuster at its loose end." { at_least(FITTING_SLACK.id, None) }
    output BELT_STRETCH: Ratio, "%", "belt-stretch", "Stretch it can take", "Before the adjuster stands at its tight end." { at_least(STRETCH.id, None) }
    output ADJUSTER_PLACE: Length, "mm", "adjuster-place", "Adjuster stands at", "Travel from where it is drawn when this belt is tight: positive tightens. Spans, wraps and gaps are for there." {}
    output BELT_WIDTH: Length, "mm", "belt-width", "Belt width", "3.56 mm for each rib." {}

    output CURVE_RISE: RotationalSpeed, "min⁻¹", "output-rise", "Rise of the output curve", "Speed over which the current comes within 37 % of its ceiling." {}
    output CURVE_CEILING: Current, "A", "output-ceiling", "Ceiling of the output curve", "Current it would reach at endless speed, cold." {}
    output CURRENT_IDLE: Current, "A", "current-idle", "Current at idle", "What it gives, hot." { rests_on(MADE) caution("Confirm with a clamp meter, hot, everything on.") }
    output CURRENT_CRUISE: Current, "A", "current-cruise", "Current at cruise", "What it gives, hot." { rests_on(MADE) }
    output BALANCE_IDLE: Current, "A", "balance-idle", "Left for the battery at idle", "Current made, hot, less current drawn." {
        at_least(LEAST_BALANCE.id, Some(CHARGE_ALLOWANCE.id)) rests_on(&[LOW_CURRENT.id, RATED_CURRENT.id, LOAD_IDLE.id])
        caution("Confirm with a clamp meter, hot, everything on.")
    }
    output BALANCE_CRUISE: Current, "A", "balance-cruise", "Left for the battery at cruise", "Current made, hot, less current drawn." {
        at_least(LEAST_BALANCE.id, Some(CHARGE_ALLOWANCE.id)) rests_on(&[LOW_CURRENT.id, RATED_CURRENT.id, LOAD_CRUISE.id])
        caution("Confirm with a clamp meter, hot, everything on.")
    }
    output SHAFT_POWER_IDLE: Power, "W", "alternator-power-idle", "Alternator takes at idle", "Shaft power at full output, hot." {}
    output SHAFT_POWER_CRUISE: Power, "W", "alternator-power-cruise", "Alternator takes at cruise", "Shaft power at full output, hot." {}
    output SHAFT_POWER_HIGH: Power, "W", "alternator-power-high", "Alternator takes at highest", "Shaft power at full output, hot." {}
    output SHAFT_TORQUE_IDLE: Torque, "N·m", "alternator-torque-idle", "Alternator torque at idle", "At its own shaft." {}
    output SHAFT_TORQUE_HIGH: Torque, "N·m", "alternator-torque-high", "Alternator torque at highest", "At its own shaft, charging; spinning up comes on top." {}

    output PUMP_POWER_IDLE: Power, "W", "pump-power-idle", "Pump takes at idle", "Shaft power." {}
    output PUMP_POWER_CRUISE: Power, "W", "pump-power-cruise", "Pump takes at cruise", "Shaft power." {}
    output PUMP_POWER_HIGH: Power, "W", "pump-power-high", "Pump takes at highest", "Shaft power at the highest engine speed." {}
    output ACCESSORY_POWER_IDLE: Power, "W", "accessory-power-idle", "Accessories take at idle", "Power from the crank through the belt." {}
    output ACCESSORY_POWER_CRUISE: Power, "W", "accessory-power-cruise", "Accessories take at cruise", "Power from the crank through the belt." {}
    output ACCESSORY_POWER_HIGH: Power, "W", "accessory-power-high", "Accessories take at highest", "Power from the crank through the belt at the highest engine speed." {}
    output ACCESSORY_TORQUE_IDLE: Torque, "N·m", "accessory-torque-idle", "Accessory torque at idle", "Felt at the crank." {}
    output ACCESSORY_TORQUE_CRUISE: Torque, "N·m", "accessory-torque-cruise", "Accessory torque at cruise", "Felt at the crank." {}
    output ACCESSORY_TORQUE_HIGH: Torque, "N·m", "accessory-torque-high", "Accessory torque at highest", "Felt at the crank at the highest engine speed." {}

    output CRANK_ACCELERATION: AngularAcceleration, "rad/s²", "crank-acceleration", "Free rev", "How fast the crank gathers speed at peak torque, out of gear." {}
    output SPIN_UP_TORQUE: Torque, "N·m", "spin-up-torque", "Alternator torque to spin up", "At its shaft in a free rev, on top of charging." {}
    output CENTRIFUGAL: Force, "N", "centrifugal", "Centrifugal pull", "Of the belt on itself at the highest speed: every span carries it, no pulley feels it." {}
    output TENSION_NEEDED: Force, "N", "tension-needed", "Tension needed", "Least setting at which every pulley grips as asked, at idle and in a free rev." {}
    output TENSION_SET: Force, "N", "tension-set", "Tension set", "Of one strand, all ribs together." {
        at_least(TENSION_NEEDED.id, None) rests_on(PULLS)
    }
    output LONGEST_TONE: Frequency, "Hz", "longest-tone", "Tone of the longest span", "Note it rings at when plucked, at the tension set." { caution("Engine off, key out, hair and sleeves clear.") }
    output LEAST_GRIP_FOUND: Ratio, "", "grip", "Grip of the weakest pulley", "Tension ratio it can hold over the one it needs, at idle or in a free rev." {
        at_least(LEAST_GRIP.id, Some(GRIP_NEAR.id)) rests_on(PULLS)
    }
    output WET_GRIP: Ratio, "", "grip-wet", "Grip of the weakest pulley, wet", "The same in spray." {
        at_least(LEAST_GRIP_WET.id, Some(LEAST_GRIP.id)) rests_on(PULLS)
    }
    output PUMP_BEARING: Force, "N", "pump-bearing-load", "Load on the pump's bearing", "Largest push of the belt: standing, idling or revving." {}

    output AIR_PRESSURE: Pressure, "kPa", "air-pressure", "Air pressure", "At the altitude given." {}
    output SYSTEM_PRESSURE: Pressure, "kPa", "system-pressure", "Pressure in the system", "Absolute, at work: the air shut in, at most what the cap holds." {}
    output VAPOUR_PRESSURE: Pressure, "kPa", "vapour-pressure", "Vapour pressure", "Absolute, of the coolant at the pump's inlet." {}
    output COOLANT_DENSITY: Density, "kg/m³", "coolant-density", "Density of the coolant", "At the pump's inlet." { digits(4) }
    output STANDING_HEAD: Length, "m", "standing-head", "Head over vapour", "At the pump's inlet with nothing flowing." {}
    output NPSH_AVAILABLE: Length, "m", "npsh-available", "Suction head available", "At the highest engine speed." {}
    output NPSH_REQUIRED: Length, "m", "npsh-required", "Suction head required", "At the highest engine speed." {}
    output CLEAR_SPEED: RotationalSpeed, "min⁻¹", "clear-speed", "Cavitation to stay above", "The highest engine speed and what one wants in hand." { digits(4) }
    output ONSET: RotationalSpeed, "min⁻¹", "cavitation-onset", "Cavitation begins", "Engine speed at which the pump begins to cavitate, at work." {
        at_least(HIGHEST_SPEED.id, Some(CLEAR_SPEED.id)) rests_on(SUCTION) rests_on_while(CAP_PLACE.id, 1, RADIATOR_LOSS.id)
        caution("An estimate unless your pump was tested. Watch the temperature; never open a hot cap.")
    }
    output ONSET_REFERENCE: RotationalSpeed, "min⁻¹", "cavitation-onset-reference", "Cavitation begins, reference pulley", "The same with the reference pulleys." {
        caution("An estimate unless your pump was tested. Watch the temperature; never open a hot cap.")
    }
    output ONSET_OPEN: RotationalSpeed, "min⁻¹", "cavitation-onset-open", "Cavitation begins, cap leaking", "Engine speed with no pressure in the system, at work." {}
    output ONSET_WARM_UP: RotationalSpeed, "min⁻¹", "cavitation-onset-warm-up", "Cavitation begins, warming up", "Lowest engine speed on the way from cold to work, the system not yet at pressure." {
        at_least(IDLE.id, Some(HIGHEST_SPEED.id)) rests_on(SUCTION) rests_on_while(CAP_PLACE.id, 1, RADIATOR_LOSS.id)
        caution("Do not rev an engine that is not yet warm.")
    }
    output WARM_UP_WORST: Temperature, "°C", "warm-up-worst", "Worst while warming up at", "Coolant temperature at which the pump cavitates soonest." {}
    output FLOW_IDLE: Flow, "L/min", "flow-idle", "Flow at idle", "Through the engine." {}
    output FLOW_IDLE_REFERENCE: Flow, "L/min", "flow-idle-reference", "Flow at idle, reference pulley", "Through the engine with the reference pulleys." {}
    output FLOW_HIGH: Flow, "L/min", "flow-high", "Flow at highest", "Through the engine at the highest engine speed." {}
    output IDLE_RISE: TemperatureRise, "K", "idle-rise", "Coolant rise at idle", "How much warmer the coolant leaves the engine than it came." {
        at_most(MOST_RISE.id, None) rests_on(&[PUMP_FLOW.id, HEAT_IDLE.id])
    }
    output IDLE_RISE_REFERENCE: TemperatureRise, "K", "idle-rise-reference", "Coolant rise at idle, reference pulley", "The same with the reference pulleys." {}
}
