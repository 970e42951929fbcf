//! What the wiring is told and what it tells: inputs, limits and answers.

use super::choices::{
    Branch, Check, Colour, Diode, EarthTo, Gauge, Governs, Guard, Joints, Kind, Letter, LoadBy, Parent, Pattern, Protection, Return,
    SensorEarth, SizeRange, Strap, Stripe, Surroundings, Switching,
};
use super::ready;
use crate::calculators::WIRING_PLACE;
use crate::calculators::front_drive::{CHARGE_ALLOWANCE, CURRENT_CRUISE, CURRENT_IDLE, LEAST_BALANCE, RATED_CURRENT};
use crate::data::conductors::STOCKED_AREAS;
use crate::data::fuses::RATINGS;
use crate::declare;
use crate::quantity::{
    Area, Charge, Current, HeatPerLength, Length, Power, Ratio, Resistance, Temperature, ThermalConductivity, Time, Voltage,
};
use crate::spec::Source::{CommonPractice, Judgement};
use crate::spec::Words;

declare! {
    calculator WIRING_PLACE;
    tables {
        CIRCUITS: "circuits", "Circuits", "One wire from a source to a load, and what comes back.", 0..=200, ready::CIRCUITS;
        BRANCHES: "branches", "Branches of the loom", "A stretch of loom in one place. A circuit runs through its branch and all that this one leaves from.", 1..=12, ready::BRANCHES;
    }

    column(CIRCUITS) NAME: Words, "", "name", "Circuit", "What you call it; stands on its label." { text(28) group("Circuit") }
    column(CIRCUITS) CURRENT: Current, "A", "current", "Current while on", "While the load is on, from its plate or a meter; of a ramp its peak. Injectors or coils that share a feed count together." {
        default(f64::NAN, CommonPractice) possible(0.0, 300.0) usual(0.1, 30.0, 0.1) follows_by(LOAD_BY.id, &[(1, CURRENT_OF_POWER.id)]) group("Circuit") matters()
    }
    column(CIRCUITS) LENGTH: Length, "m", "length", "Wire out", "From the fuse box to the load along the loom, by a string laid in the car." {
        default(f64::NAN, Judgement) possible(0.0, 50.0) usual(0.2, 8.0, 0.1) group("Circuit") of_the_car() matters()
    }
    column(CIRCUITS) SIZE: Area, "mm²", "size", "Wire size", "Nominal area, on the reel. The smallest that passes unless you choose another." {
        conductor() possible(0.13, 120.0) usual(0.5, 16.0, 0.25) sizes(STOCKED_AREAS) follows(SMALLEST.id) group("Circuit") matters()
    }
    column(CIRCUITS) FUSE: Current, "A", "fuse", "Fuse", "Rating of the fuse at the source. The smallest that carries the load unless you choose another." {
        possible(0.5, 250.0) usual(1.0, 100.0, 1.0) sizes(RATINGS) follows(SUGGESTED_FUSE.id) group("Circuit")
    }
    column(CIRCUITS) KIND: Kind, "", "kind", "Kind of load", "Decides how much voltage it may lose." {
        default(8.0, CommonPractice) group("Circuit")
    }
    column(CIRCUITS) PATTERN: Pattern, "", "pattern", "How the current flows", "Decides average, heat and peak." {
        default(0.0, CommonPractice) group("Load")
    }
    column(CIRCUITS) DUTY_AT_IDLE: Ratio, "", "duty-at-idle", "On at idle", "Share of the time it is on while the engine idles: watch it for ten minutes." {
        default(1.0, CommonPractice) possible(0.0, 12.0) usual(0.0, 1.0, 0.05) follows_by(PATTERN.id, &[(2, COIL_DUTY_AT_IDLE.id)]) group("Load")
    }
    column(CIRCUITS) DUTY_AT_CRUISE: Ratio, "", "duty-at-cruise", "On at cruise", "Share of the time it is on at a motorway cruise: think of a wet night." {
        default(1.0, CommonPractice) possible(0.0, 12.0) usual(0.0, 1.0, 0.05) follows_by(PATTERN.id, &[(2, COIL_DUTY_AT_CRUISE.id)]) group("Load")
    }
    column(CIRCUITS) DUTY_AT_MOST: Ratio, "", "duty-at-most", "On at most", "Largest share of the time it is ever on: decides the wire's heat where it pulses." {
        default(1.0, CommonPractice) possible(0.0, 12.0) usual(0.0, 1.0, 0.05) follows_by(PATTERN.id, &[(2, COIL_DUTY_AT_MOST.id)]) group("Load")
    }
    column(CIRCUITS) RETURN: Return, "", "return", "Comes back by", "How the current gets from the load back to the battery." {
        default(2.0, CommonPractice) group("Way")
    }
    column(CIRCUITS) RETURN_LENGTH: Length, "m", "return-length", "Wire back", "A string laid along it, from the load to where it meets body, engine or control unit." {
        default(0.3, CommonPractice) possible(0.0, 50.0) usual(0.0, 8.0, 0.1) follows_by(RETURN.id, &[(0, LENGTH.id), (1, LENGTH.id)]) group("Way")
    }
    column(CIRCUITS) BRANCH: Branch, "", "branch", "Branch", "The branch of the loom at whose end it leaves, by its letter." {
        default(0.0, CommonPractice) group("Way")
    }
    column(CIRCUITS) INSULATION: Letter, "", "insulation", "Insulation", "Letter of ISO 6722 on the reel or in its data sheet: what it stands for 3000 hours." {
        default(1.0, CommonPractice) group("Way")
    }
    column(CIRCUITS) PROTECTION: Protection, "", "protection", "Guarded by", "What opens when this wire is shorted to the body." {
        default(0.0, CommonPractice) group("Way")
    }
    column(CIRCUITS) SWITCHING: Switching, "", "switching", "Switched by", "Whether a relay's contact lies in the circuit." {
        default(0.0, CommonPractice) group("Way")
    }
    column(CIRCUITS) CONTACTS: Ratio, "", "contacts", "Plug contacts", "Count the plugs and joints the current passes, out and back." {
        default(2.0, CommonPractice) possible(0.0, 40.0) usual(0.0, 8.0, 1.0) whole() group("Way")
    }
    column(CIRCUITS) LOAD_BY: LoadBy, "", "load-by", "Load is given by", "Its current in amperes or its power in watts." {
        default(0.0, CommonPractice) group("Load")
    }
    column(CIRCUITS) POWER: Power, "W", "power", "Power", "Of the load, on its plate or bulb, at the voltage while charging." {
        default(f64::NAN, CommonPractice) possible(0.0, 5000.0) usual(1.0, 300.0, 1.0) group("Load")
    }
    column(CIRCUITS) ALLOWED: Voltage, "V", "allowed-drop", "May lose", "Voltage that wire, contacts, fuse, relay and return may lose together." {
        default(0.5, CommonPractice) possible(0.001, 10.0) usual(0.05, 1.5, 0.05) group("Load")
        follows_by(KIND.id, &[(0, DROP_CONTROL_FEED.id), (1, DROP_CONTROL_EARTH.id), (2, DROP_SENSOR_EARTH.id), (3, DROP_PUMP_OR_COIL.id), (4, DROP_INJECTORS.id), (5, DROP_MOTOR.id), (6, DROP_HEADLAMP.id), (7, DROP_HEATER.id), (8, DROP_LAMP.id)])
    }
    column(CIRCUITS) FROM: Words, "", "from", "From", "Where the wire starts, for the loom list." { text(28) group("Loom list") }
    column(CIRCUITS) TO: Words, "", "to", "To", "Where the wire ends, for the loom list." { text(28) group("Loom list") }
    column(CIRCUITS) COLOUR: Colour, "", "colour", "Colour", "Of the insulation; letters of IEC 60757, from memory." {
        default(2.0, CommonPractice) group("Loom list")
    }
    column(CIRCUITS) STRIPE: Stripe, "", "stripe", "Stripe", "Second colour, if any." { default(0.0, CommonPractice) group("Loom list") }

    column(BRANCHES) BRANCH_NAME: Words, "", "name", "Branch", "Where it runs." { text(28) group("Branch") }
    column(BRANCHES) BRANCH_LETTER: Branch, "", "letter", "Letter", "What circuits call it." {
        default(11.0, CommonPractice) group("Branch")
    }
    column(BRANCHES) PARENT: Parent, "", "leaves-from", "Leaves from", "The branch it leaves, by its letter, or the fuse box." {
        default(0.0, CommonPractice) group("Branch")
    }
    column(BRANCHES) SURROUNDINGS: Surroundings, "", "surroundings", "Runs through", "Decides the air around it." {
        default(1.0, CommonPractice) group("Branch")
    }
    column(BRANCHES) BRANCH_AIR: Temperature, "°C", "air", "Air around it", "On a hot day after a hard drive, by a thermometer left there." {
        default(80.0, CommonPractice) possible(-50.0, 250.0) usual(20.0, 120.0, 5.0) group("Branch")
        follows_by(SURROUNDINGS.id, &[(0, CABIN_AIR.id), (1, BAY_AIR.id), (2, EXHAUST_AIR.id)])
    }

    input CABIN_AIR: Temperature, "°C", "cabin-air", "Air in the cabin", "A thermometer left behind the dash on a hot day." {
        default(40.0, CommonPractice) possible(-50.0, 150.0) usual(20.0, 70.0, 5.0) group("Surroundings")
    }
    input BAY_AIR: Temperature, "°C", "bay-air", "Air in the engine bay", "A thermometer left under the bonnet, after a hard drive." {
        default(80.0, CommonPractice) possible(-50.0, 200.0) usual(50.0, 110.0, 5.0) group("Surroundings")
    }
    input EXHAUST_AIR: Temperature, "°C", "exhaust-air", "Air near the exhaust", "A thermometer a hand's breadth from the pipes, after a hard drive." {
        default(110.0, CommonPractice) possible(-50.0, 250.0) usual(80.0, 160.0, 5.0) group("Surroundings")
    }
    input FUSE_BOX_AIR: Temperature, "°C", "fuse-box-air", "Air in the fuse box", "A thermometer left in it on a hot day. A warm fuse carries less." {
        default(40.0, CommonPractice) possible(-50.0, 200.0) usual(20.0, 90.0, 5.0) group("Surroundings")
    }

    input SIZE_RANGE: SizeRange, "", "size-range", "Choose among", "Sizes that circuits and the charge cable are chosen from." {
        default(0.0, CommonPractice) group("Parts")
    }
    input LEAST_SIZE: Area, "mm²", "least-size", "Thinnest wire you use", "Thinner ones break at their crimps." {
        conductor() default(0.5, CommonPractice) possible(0.13, 10.0) usual(0.35, 1.0, 0.05) group("Parts")
    }
    input LEAST_FUSE: Current, "A", "least-fuse", "Smallest fuse you use", "Smaller ones are hard to buy at the roadside." {
        default(5.0, CommonPractice) possible(0.5, 30.0) usual(1.0, 10.0, 0.5) group("Parts")
    }
    input FUSE_SHARE: Ratio, "%", "fuse-share", "Fuse carries for hours", "Share of its rating at 25 °C: its maker's data sheet." {
        default(75.0, CommonPractice) possible(20.0, 100.0) usual(60.0, 90.0, 5.0) group("Parts")
    }
    input FUSE_DROP: Voltage, "mV", "fuse-drop", "A fuse loses", "At its rated current, its holder's clips included: a meter across it, load on." {
        default(90.0, CommonPractice) possible(0.0, 1000.0) usual(50.0, 150.0, 5.0) group("Parts")
    }
    input RELAY_DROP: Voltage, "mV", "relay-drop", "A relay's contact loses", "At the load's current: a meter across its contact, load on." {
        default(60.0, CommonPractice) possible(0.0, 1000.0) usual(20.0, 150.0, 5.0) group("Parts")
    }
    input CONTACT_RESISTANCE: Resistance, "mΩ", "contact-resistance", "A plug contact", "Crimp and contact together: millivolts across it over the amperes through it." {
        default(5.0, CommonPractice) possible(0.0, 1000.0) usual(1.0, 20.0, 0.5) group("Parts")
    }
    input RELAY_COIL: Current, "A", "relay-coil", "A relay's coil draws", "At the battery's voltage: a meter in series, or voltage over its resistance." {
        default(0.15, CommonPractice) possible(0.01, 2.0) usual(0.1, 0.3, 0.01) group("Parts")
    }
    input DROP_OUT: Current, "A", "relay-drop-out", "A relay lets go below", "Current at which a relay that has closed opens again: its maker's data sheet." {
        default(0.03, CommonPractice) possible(0.001, 1.0) usual(0.01, 0.08, 0.005) group("Parts")
    }
    input DWELL: Time, "ms", "dwell", "Coil dwell", "How long a coil is charged for each spark: from the control unit's table." {
        default(3.0, CommonPractice) possible(0.1, 20.0) usual(1.5, 5.0, 0.1) group("Parts")
    }
    input CYLINDERS: Ratio, "", "cylinders", "Cylinders", "Sparks in two turns of the engine." {
        default(4.0, CommonPractice) possible(1.0, 16.0) usual(4.0, 8.0, 1.0) whole() group("Parts")
    }

    input DROP_CONTROL_FEED: Voltage, "V", "drop-control-feed", "Control unit's feed may lose", "Out and back, hot." {
        default(0.3, CommonPractice) possible(0.001, 5.0) usual(0.1, 1.0, 0.05) group("Allowed loss")
    }
    input DROP_CONTROL_EARTH: Voltage, "V", "drop-control-earth", "Control unit's earth may lose", "Everything it switches comes back here." {
        default(0.1, CommonPractice) possible(0.001, 5.0) usual(0.05, 0.5, 0.05) group("Allowed loss")
    }
    input DROP_SENSOR_EARTH: Voltage, "V", "drop-sensor-earth", "Sensor earth may lose", "All of it is error of the sensors." {
        default(0.02, CommonPractice) possible(0.001, 5.0) usual(0.01, 0.1, 0.01) group("Allowed loss")
    }
    input DROP_PUMP_OR_COIL: Voltage, "V", "drop-pump-coil", "Pumps and coils may lose", "Out and back, hot." {
        default(0.5, CommonPractice) possible(0.001, 5.0) usual(0.2, 1.0, 0.05) group("Allowed loss")
    }
    input DROP_INJECTORS: Voltage, "V", "drop-injectors", "Injectors may lose", "Out and back, hot." {
        default(0.4, CommonPractice) possible(0.001, 5.0) usual(0.2, 1.0, 0.05) group("Allowed loss")
    }
    input DROP_MOTOR: Voltage, "V", "drop-motor", "Fan, wiper and horn may lose", "Out and back, hot." {
        default(0.8, CommonPractice) possible(0.001, 5.0) usual(0.2, 1.5, 0.05) group("Allowed loss")
    }
    input DROP_HEADLAMP: Voltage, "V", "drop-headlamp", "Headlamps may lose", "Out and back, hot." {
        default(0.5, CommonPractice) possible(0.001, 5.0) usual(0.2, 1.0, 0.05) group("Allowed loss")
    }
    input DROP_HEATER: Voltage, "V", "drop-heater", "Oxygen sensor's heater may lose", "Out and back, hot." {
        default(0.6, CommonPractice) possible(0.001, 5.0) usual(0.2, 1.0, 0.05) group("Allowed loss")
    }
    input DROP_LAMP: Voltage, "V", "drop-lamp", "Lamps and signals may lose", "Out and back, hot." {
        default(1.0, CommonPractice) possible(0.001, 5.0) usual(0.2, 1.5, 0.05) group("Allowed loss")
    }

    input SERVICE_SHARE: Ratio, "%", "service-share", "Cut longer by", "Share of the length, for bends and for the loom's growth while it is laid." {
        default(10.0, CommonPractice) possible(0.0, 100.0) usual(0.0, 25.0, 1.0) group("Loom")
    }
    input SERVICE_LENGTH: Length, "mm", "service-length", "and by", "For crimping twice." {
        default(150.0, CommonPractice) possible(0.0, 2000.0) usual(50.0, 300.0, 10.0) group("Loom")
    }
    input COVER: Length, "mm", "cover", "Tape or sleeve", "Its thickness, by calliper on a folded piece." {
        default(0.8, CommonPractice) possible(0.0, 10.0) usual(0.2, 2.0, 0.1) group("Loom")
    }
    input CONDUCTIVITY: ThermalConductivity, "W/(m·K)", "bundle-conductivity", "A bundle conducts", "Copper, insulation and the air between them, across the wires." {
        default(0.25, Judgement) possible(0.03, 5.0) usual(0.1, 0.5, 0.01) group("Loom")
    }

    input REST_VOLTAGE: Voltage, "V", "rest-voltage", "Battery at rest", "Meter across its posts, engine off for some hours, everything off." {
        default(12.6, CommonPractice) possible(3.0, 60.0) usual(11.8, 13.0, 0.1) group("Battery")
    }
    input BATTERY_RESISTANCE: Resistance, "mΩ", "battery-resistance", "Battery's inner resistance", "At 25 °C, by a tester; or rest voltage less voltage while cranking, over the current." {
        default(7.0, CommonPractice) possible(0.5, 200.0) usual(3.0, 15.0, 0.5) group("Battery")
    }
    input COLD_FACTOR: Ratio, "", "battery-cold-factor", "and at −10 °C, times", "How much it grows in the cold: its maker's figure." {
        default(1.8, CommonPractice) possible(1.0, 10.0) usual(1.4, 2.5, 0.1) group("Battery")
    }
    input CAPACITY: Charge, "A·h", "capacity", "Battery holds", "On its label, for 20 hours." {
        default(44.0, CommonPractice) possible(1.0, 500.0) usual(20.0, 80.0, 1.0) group("Battery") of_the_car()
    }
    input USABLE: Ratio, "%", "usable-share", "Usable share", "What may be taken before it will not crank: its maker's figure; less for an old one." {
        default(50.0, CommonPractice) possible(5.0, 100.0) usual(30.0, 70.0, 5.0) group("Battery")
    }
    input STANDING_CURRENT: Current, "mA", "standing-current", "Drawn while parked", "By a meter in the earth cable, an hour after locking." {
        default(20.0, Judgement) possible(0.01, 5000.0) usual(2.0, 60.0, 1.0) group("Battery")
    }
    input STANDING_WANTED: Time, "d", "standing-wanted", "Must stand for", "And still crank." {
        default(21.0, CommonPractice) possible(0.1, 1000.0) usual(7.0, 60.0, 1.0) group("Battery")
    }
    input STANDING_NEAR: Time, "d", "standing-better", "Better for", "With a battery no longer new." {
        default(28.0, CommonPractice) possible(0.1, 2000.0) usual(7.0, 90.0, 1.0) group("Battery")
    }
    input OTHER_LOAD_AT_IDLE: Current, "A", "other-load-at-idle", "All else at idle", "What this list leaves out, at night: dipped lamps 9.2 A, side and tail 2.5 A." {
        default(11.7, CommonPractice) possible(0.0, 300.0) usual(0.0, 40.0, 0.1) group("Battery")
    }
    input OTHER_LOAD_AT_CRUISE: Current, "A", "other-load-at-cruise", "All else at cruise", "What this list leaves out, on a wet night: lamps 11.7 A, wipers 4 A." {
        default(15.7, CommonPractice) possible(0.0, 300.0) usual(0.0, 40.0, 0.1) group("Battery")
    }
    input MADE_AT_IDLE: Current, "A", "made-at-idle", "Alternator makes at idle", "Hot, everything on: clamp meter on its cable." {
        possible(0.0, 1000.0) usual(10.0, 70.0, 1.0) follows(CURRENT_IDLE.id) group("Battery")
    }
    input MADE_AT_CRUISE: Current, "A", "made-at-cruise", "Alternator makes at cruise", "Hot, everything on: clamp meter on its cable." {
        possible(0.0, 1000.0) usual(20.0, 100.0, 1.0) follows(CURRENT_CRUISE.id) group("Battery")
    }

    input STARTER_CABLE: Length, "m", "starter-cable", "Starter cable", "A string laid from battery to starter, with the isolator's tails." {
        default(1.5, Judgement) possible(0.0, 20.0) usual(0.3, 5.0, 0.1) group("Heavy cables") of_the_car() matters()
    }
    input STARTER_SIZE: Area, "mm²", "starter-size", "Starter cable's size", "Nominal area, printed on it or on the reel." {
        conductor() default(35.0, CommonPractice) possible(1.0, 120.0) usual(16.0, 70.0, 1.0) sizes(STOCKED_AREAS) group("Heavy cables")
    }
    input EARTH_TO: EarthTo, "", "earth-to", "Battery's negative goes to", "Where its cable is bolted." {
        default(0.0, CommonPractice) group("Heavy cables")
    }
    input EARTH_CABLE: Length, "m", "earth-cable", "Earth cable", "A string laid from battery to where its negative is bolted." {
        default(0.4, Judgement) possible(0.0, 20.0) usual(0.2, 5.0, 0.1) group("Heavy cables") of_the_car()
    }
    input EARTH_SIZE: Area, "mm²", "earth-size", "Earth cable's size", "Nominal area, printed on it or on the reel." {
        conductor() default(35.0, CommonPractice) possible(1.0, 120.0) usual(16.0, 70.0, 1.0) sizes(STOCKED_AREAS) group("Heavy cables")
    }
    input STRAP: Strap, "", "strap", "Engine strap", "Braid or cable between engine and body." {
        default(0.0, CommonPractice) group("Heavy cables") matters()
    }
    input STRAP_LENGTH: Length, "mm", "strap-length", "Engine strap's length", "Tape between its bolts, with slack for the engine's roll." {
        default(250.0, CommonPractice) possible(20.0, 5000.0) usual(150.0, 600.0, 10.0) group("Heavy cables")
    }
    input STRAP_SIZE: Area, "mm²", "strap-size", "Engine strap's size", "Nominal area, from its maker; of braid the copper's." {
        conductor() default(35.0, CommonPractice) possible(0.13, 120.0) usual(10.0, 50.0, 1.0) sizes(STOCKED_AREAS) group("Heavy cables")
    }
    input JOINT_RESISTANCE: Resistance, "mΩ", "joint-resistance", "A bolted joint", "Ring and bolt, bright and tight: millivolts across it while cranking, over the amperes." {
        default(0.2, CommonPractice) possible(0.0, 50.0) usual(0.1, 1.0, 0.05) group("Heavy cables")
    }
    input JOINTS: Joints, "", "joints", "Bolted joints are", "All of the heavy cables." {
        default(0.0, CommonPractice) group("Heavy cables")
    }
    input BODY_RESISTANCE: Resistance, "mΩ", "body-resistance", "Body", "From one bolt to another: volts between them while cranking, over the amperes; more where panels are glued or plastic." {
        default(0.05, Judgement) possible(0.0, 100.0) usual(0.02, 2.0, 0.01) group("Heavy cables")
    }
    input STRAY_RESISTANCE: Resistance, "mΩ", "stray-resistance", "Every other way from engine to body", "Throttle cable, fuel pipe, bearings: the way current takes without a strap." {
        default(30.0, Judgement) possible(1.0, 10_000.0) usual(10.0, 200.0, 5.0) group("Heavy cables")
    }
    input CHARGE_CABLE: Length, "m", "charge-cable", "Charge cable", "A string laid from the alternator to the starter's battery bolt." {
        default(0.8, Judgement) possible(0.0, 20.0) usual(0.3, 4.0, 0.1) group("Heavy cables") of_the_car()
    }
    input CHARGE_SIZE: Area, "mm²", "charge-size", "Charge cable's size", "Nominal area. The smallest that passes unless you choose another." {
        conductor() possible(0.13, 120.0) usual(4.0, 35.0, 1.0) sizes(STOCKED_AREAS) follows(CHARGE_SMALLEST.id) group("Heavy cables")
    }
    input CHARGE_FUSE: Current, "A", "charge-fuse", "Charge fuse", "At the battery's end of the charge cable." {
        possible(10.0, 250.0) usual(30.0, 150.0, 5.0) sizes(RATINGS) follows(SUGGESTED_CHARGE_FUSE.id) group("Heavy cables")
    }
    input ALTERNATOR_CURRENT: Current, "A", "alternator-current", "Alternator's full output", "On its plate." {
        possible(0.1, 1000.0) usual(30.0, 120.0, 5.0) follows(RATED_CURRENT.id) group("Heavy cables")
    }
    input HEAVY_INSULATION: Letter, "", "heavy-insulation", "Charge cable's insulation", "Letter of ISO 6722: what it stands for 3000 hours." {
        default(2.0, CommonPractice) group("Heavy cables")
    }

    input START_TEMPERATURE: Temperature, "°C", "start-temperature", "Starting at", "Of engine and battery: the coldest morning you start it on." {
        default(20.0, CommonPractice) possible(-40.0, 60.0) usual(-20.0, 30.0, 1.0) group("Starting")
    }
    input CRANK_WARM: Current, "A", "crank-current", "Starter draws at 20 °C", "While it turns steadily, by a clamp meter." {
        default(180.0, CommonPractice) possible(20.0, 1500.0) usual(100.0, 300.0, 5.0) group("Starting")
    }
    input CRANK_COLD: Current, "A", "crank-current-cold", "and at −10 °C", "Thick oil: clamp meter on a winter's morning." {
        default(260.0, CommonPractice) possible(20.0, 2000.0) usual(150.0, 500.0, 5.0) group("Starting")
    }
    input INRUSH: Current, "A", "inrush-current", "and for 50 ms", "Before it turns: a clamp meter that holds the peak." {
        default(500.0, CommonPractice) possible(20.0, 3000.0) usual(300.0, 900.0, 10.0) group("Starting")
    }
    input SENSOR_EARTH: SensorEarth, "", "sensor-earth", "Sensors' earth ends", "What the control unit measures against." {
        default(0.0, CommonPractice) group("Starting")
    }

    input LAMP_RESISTANCE: Resistance, "Ω", "charge-lamp-resistance", "Charge lamp", "A 2.2 W bulb glowing is about 65 Ω; a light-emitting diode alone about 1000 Ω: it needs a resistor beside it." {
        default(65.0, CommonPractice) possible(1.0, 100_000.0) usual(20.0, 1500.0, 5.0) group("Charge lamp")
    }
    input EXCITATION_NEEDED: Current, "A", "excitation-needed", "Alternator wants", "Through its lamp, to begin charging; ask its maker." {
        default(0.15, CommonPractice) possible(0.001, 5.0) usual(0.05, 0.3, 0.01) group("Charge lamp")
    }
    input DIODE: Diode, "", "charge-lamp-diode", "Diode in the lamp's feed", "Lets current go to the alternator and none come back." {
        default(0.0, CommonPractice) group("Charge lamp")
    }

    input POSITIVE_ALLOWED: Voltage, "V", "crank-positive-allowed", "Starter cable may lose", "While cranking." {
        default(0.5, CommonPractice) possible(0.01, 5.0) usual(0.2, 1.0, 0.05) group("Limits of heavy cables")
    }
    input POSITIVE_NEAR: Voltage, "V", "crank-positive-better", "and better only", "While cranking." {
        default(0.4, CommonPractice) possible(0.01, 5.0) usual(0.2, 1.0, 0.05) group("Limits of heavy cables")
    }
    input RETURN_ALLOWED: Voltage, "V", "crank-return-allowed", "Starter's return may lose", "While cranking: strap, body, earth cable." {
        default(0.3, CommonPractice) possible(0.01, 5.0) usual(0.1, 1.0, 0.05) group("Limits of heavy cables")
    }
    input RETURN_NEAR: Voltage, "V", "crank-return-better", "and better only", "While cranking." {
        default(0.24, CommonPractice) possible(0.01, 5.0) usual(0.1, 1.0, 0.05) group("Limits of heavy cables")
    }
    input STARTER_LEAST: Voltage, "V", "starter-least", "Starter wants at least", "While it turns." {
        default(9.6, CommonPractice) possible(1.0, 30.0) usual(8.0, 11.0, 0.1) group("Limits of heavy cables")
    }
    input STARTER_NEAR: Voltage, "V", "starter-better", "and better", "While it turns." {
        default(10.2, CommonPractice) possible(1.0, 30.0) usual(8.0, 11.5, 0.1) group("Limits of heavy cables")
    }
    input CONTROL_LEAST: Voltage, "V", "control-least", "Control unit stays awake above", "For an instant; ask its maker." {
        default(6.5, Judgement) possible(1.0, 30.0) usual(5.0, 9.0, 0.1) group("Limits of heavy cables")
    }
    input CONTROL_NEAR: Voltage, "V", "control-better", "and better above", "For an instant." {
        default(7.5, Judgement) possible(1.0, 30.0) usual(5.0, 10.0, 0.1) group("Limits of heavy cables")
    }
    input CHARGE_ALLOWED: Voltage, "V", "charge-allowed", "Charge cable may lose", "At full output, alternator to battery." {
        default(0.3, CommonPractice) possible(0.01, 5.0) usual(0.1, 0.6, 0.05) group("Limits of heavy cables")
    }
    input CHARGE_NEAR: Voltage, "V", "charge-better", "and better only", "At full output." {
        default(0.24, CommonPractice) possible(0.01, 5.0) usual(0.1, 0.6, 0.05) group("Limits of heavy cables")
    }
    input CHARGE_RETURN_ALLOWED: Voltage, "V", "charge-return-allowed", "Charge return may lose", "At full output." {
        default(0.2, CommonPractice) possible(0.01, 5.0) usual(0.1, 0.6, 0.05) group("Limits of heavy cables")
    }
    input CHARGE_RETURN_NEAR: Voltage, "V", "charge-return-better", "and better only", "At full output." {
        default(0.16, CommonPractice) possible(0.01, 5.0) usual(0.1, 0.6, 0.05) group("Limits of heavy cables")
    }
    input STRAP_ALLOWED: Voltage, "V", "strap-allowed", "Engine strap may lose", "Running." {
        default(0.1, CommonPractice) possible(0.001, 5.0) usual(0.05, 0.3, 0.01) group("Limits of heavy cables")
    }
    input STRAP_NEAR: Voltage, "V", "strap-better", "and better only", "Running." {
        default(0.08, CommonPractice) possible(0.001, 5.0) usual(0.05, 0.3, 0.01) group("Limits of heavy cables")
    }
    input ERROR_ALLOWED: Voltage, "V", "sensor-error-allowed", "Sensors may be off by", "While the starter turns." {
        default(0.02, CommonPractice) possible(0.001, 5.0) usual(0.01, 0.1, 0.01) group("Limits of heavy cables")
    }
    input ERROR_NEAR: Voltage, "V", "sensor-error-better", "and better only by", "While the starter turns." {
        default(0.016, CommonPractice) possible(0.001, 5.0) usual(0.01, 0.1, 0.01) group("Limits of heavy cables")
    }
    input STRAY_ALLOWED: Current, "A", "stray-allowed", "Cables and pipes may carry", "Past this a throttle cable warms and a pipe's joint pits." {
        default(10.0, Judgement) possible(0.1, 500.0) usual(2.0, 30.0, 1.0) group("Limits of heavy cables")
    }
    input STRAY_NEAR: Current, "A", "stray-better", "and better only", "Through what was never meant to carry it." {
        default(5.0, Judgement) possible(0.1, 500.0) usual(1.0, 20.0, 1.0) group("Limits of heavy cables")
    }

    output_column(CIRCUITS) CURRENT_OF_POWER: Current, "A", "current-of-power", "Current of its power", "Power over the voltage while charging." {}
    output_column(CIRCUITS) RMS: Current, "A", "rms", "Current that heats", "Root of the mean square, at its longest duty." {}
    output_column(CIRCUITS) PEAK: Current, "A", "peak", "Peak current", "Decides the voltage lost." {}
    output_column(CIRCUITS) AVERAGE_AT_IDLE: Current, "A", "average-at-idle", "Average at idle", "What the battery sees." {}
    output_column(CIRCUITS) AVERAGE_AT_CRUISE: Current, "A", "average-at-cruise", "Average at cruise", "What the battery sees." {}
    output_column(CIRCUITS) SUGGESTED_FUSE: Current, "A", "suggested-fuse", "Smallest fuse that carries it", "By the share of its rating a fuse carries for hours; ratings of ISO 8820-3, from memory." {}
    output_column(CIRCUITS) OTHER_RESISTANCE: Resistance, "mΩ", "other-resistance", "Contacts and return path", "All but wire, fuse and relay." {}
    output_column(CIRCUITS) OTHER_DROP: Voltage, "V", "other-drop", "Lost outside the wire", "In contacts, fuse, relay, body or strap." {}
    output_column(CIRCUITS) COPPER_LENGTH: Length, "m", "copper-length", "Wire out and back", "All wire of this size in the loop." {}
    output_column(CIRCUITS) NEAR_DROP: Voltage, "V", "near-drop", "Better lose only", "Four fifths of what it may lose." {}
    output_column(CIRCUITS) LASTING: Temperature, "°C", "lasting-temperature", "Insulation stands", "For 3000 hours, by its letter." {}
    output_column(CIRCUITS) SMALLEST_ALONE: Area, "mm²", "smallest-alone", "Smallest if it ran alone", "By heat and loss in still air, without neighbours; its fuse is not asked." { conductor() }
    output_column(CIRCUITS) SMALLEST: Area, "mm²", "smallest", "Smallest that passes", "Loses no more than allowed when hot, stays cool enough in its bundle, and is guarded by its fuse; sizes of ISO 6722-1, from memory." { conductor() }
    output_column(CIRCUITS) GOVERNS: Governs, "", "governs", "Decided by", "What the next smaller size fails." {}
    output_column(CIRCUITS) DROP: Voltage, "V", "drop", "Voltage lost", "Out and back, everything in the loop, with the copper hot; resistances of ISO 6722-1, from memory." {
        at_most(ALLOWED.id, Some(NEAR_DROP.id)) caution("Heat, chafe and poor crimps burn more cars than thin copper.")
    }
    output_column(CIRCUITS) WIRE_TEMPERATURE: Temperature, "°C", "wire-temperature", "Wire's temperature", "Its copper, on and settled, in the hottest branch it runs through." {
        at_most(LASTING.id, None) caution("Keep wire off hot and sharp things: no size survives an edge or the exhaust.")
    }
    output_column(CIRCUITS) FAULT_CURRENT: Current, "A", "fault-current", "Short at the far end", "What flows when the wire is shorted at its load." {}
    output_column(CIRCUITS) OPENS_WITHIN: Time, "s", "opens-within", "The fuse opens it within", "By the slowest time of ISO 8820-3 (from memory) at a listed multiple." {}
    output_column(CIRCUITS) WARMEST: Temperature, "°C", "warmest", "Wire when its fuse is slow", "Its warmest while an overload from 1.35 times the fuse's rating up lasts as long as the fuse may take; times of ISO 8820-3, from memory." {}
    output_column(CIRCUITS) GUARD: Guard, "", "guard", "Fuse", "Whether it carries the load, and opens before the wire's damage at every listed multiple of its rating; times of ISO 8820-3, from memory." {
        verdicts(Guard::VERDICTS) caution("The fuse guards the wire, not the device. Fit it by the source, and disconnect the battery first.")
    }
    output_column(CIRCUITS) CHECK: Check, "", "check", "Chosen size", "Whether the size in force passes, and why not." {
        verdicts(Check::VERDICTS)
    }
    output_column(CIRCUITS) GAUGE: Gauge, "", "gauge", "AWG not thinner", "The even American gauge whose copper is not less." {}
    output_column(CIRCUITS) CUT_LENGTH: Length, "m", "cut-length", "Cut to", "Wire out, with the allowance for service." {}

    output_column(BRANCHES) WIRES: Ratio, "", "wires", "Wires", "Own returns included." {}
    output_column(BRANCHES) BUNDLE_DIAMETER: Length, "mm", "bundle-diameter", "Bundle", "Without tape or sleeve; wires cross and lie loosely." {}
    output_column(BRANCHES) SLEEVE: Length, "mm", "sleeve", "Sleeve's bore at least", "A tenth over the bundle." {}
    output_column(BRANCHES) GROMMET: Length, "mm", "grommet", "Grommet's bore at least", "Bundle with its tape or sleeve." {}
    output_column(BRANCHES) BRANCH_HEAT: HeatPerLength, "W/m", "heat", "Heat", "Of all its wires." {}
    output_column(BRANCHES) BRANCH_SURFACE: Temperature, "°C", "surface", "Surface", "Everything on at its longest duty." {}

    output COIL_DUTY_AT_IDLE: Ratio, "", "coil-duty-at-idle", "Coils charge at idle", "Share of the time, all coils together." {}
    output COIL_DUTY_AT_CRUISE: Ratio, "", "coil-duty-at-cruise", "Coils charge at cruise", "Share of the time, all coils together." {}
    output COIL_DUTY_AT_MOST: Ratio, "", "coil-duty-at-most", "Coils charge at redline", "Share of the time, all coils together." {}
    output LOAD_AT_IDLE: Current, "A", "load-at-idle", "Load at idle", "Average of every circuit, and all else." {}
    output LOAD_AT_CRUISE: Current, "A", "load-at-cruise", "Load at cruise", "Average of every circuit, and all else." {}
    output BALANCE_AT_IDLE: Current, "A", "balance-at-idle", "Over at idle", "What the alternator makes over the load; below nothing the battery pays." {
        at_least(LEAST_BALANCE.id, Some(CHARGE_ALLOWANCE.id)) rests_on(&[MADE_AT_IDLE.id]) caution("Confirm with a clamp meter, hot, everything on.")
    }
    output BALANCE_AT_CRUISE: Current, "A", "balance-at-cruise", "Over at cruise", "What the alternator makes over the load; below nothing the battery pays." {
        at_least(LEAST_BALANCE.id, Some(CHARGE_ALLOWANCE.id)) rests_on(&[MADE_AT_CRUISE.id]) caution("Confirm with a clamp meter, hot, everything on.")
    }
    output DRAIN_AT_IDLE: Time, "h", "drain-at-idle", "Battery lasts at idle", "Until its usable share is gone." {}
    output DRAIN_AT_CRUISE: Time, "h", "drain-at-cruise", "Battery lasts at cruise", "Until its usable share is gone." {}
    output STANDING_TIME: Time, "d", "standing-time", "Can stand for", "Until its usable share is gone." {
        at_least(STANDING_WANTED.id, Some(STANDING_NEAR.id))
    }

    output SOURCE_RESISTANCE: Resistance, "mΩ", "source-resistance", "Battery and earth cable", "What every short shares." {}
    output BODY_PATH: Resistance, "mΩ", "body-path", "Body to earth cable", "For loads that come back by the body." {}
    output ENGINE_PATH: Resistance, "mΩ", "engine-path", "Engine to earth cable", "For loads that come back by the engine." {}
    output CRANK_CURRENT: Current, "A", "crank-current-now", "Starter draws", "At the temperature it is started at." {}
    output POSITIVE_DROP: Voltage, "V", "crank-positive-drop", "Starter cable loses", "While cranking, the cable as hot as the bay." {
        at_most(POSITIVE_ALLOWED.id, Some(POSITIVE_NEAR.id)) caution("Unfused: sleeve it, clamp it, keep it off edges and the exhaust.")
    }
    output RETURN_DROP: Voltage, "V", "crank-return-drop", "Starter's return loses", "While cranking: strap, body, earth cable and their joints, as hot as the bay." {
        at_most(RETURN_ALLOWED.id, Some(RETURN_NEAR.id)) caution("Without a strap, current returns through a throttle cable or a fuel pipe: it burns or leaks.")
    }
    output STARTER_VOLTAGE: Voltage, "V", "starter-voltage", "Left at the starter", "While it turns." {
        at_least(STARTER_LEAST.id, Some(STARTER_NEAR.id)) caution("Disconnect the battery before you touch these cables: a spanner across them welds.")
    }
    output DIP_VOLTAGE: Voltage, "V", "dip-voltage", "Battery in the first instant", "What the control unit must live through." {
        at_least(CONTROL_LEAST.id, Some(CONTROL_NEAR.id))
    }
    output STRAY_CURRENT: Current, "A", "stray-current", "Through cables and pipes", "What passes the strap by, while the heaviest current flows through it." {
        at_most(STRAY_ALLOWED.id, Some(STRAY_NEAR.id)) caution("Without a strap, current returns through a throttle cable or a fuel pipe: it burns or leaks.")
    }
    output STRAP_DROP: Voltage, "V", "strap-drop", "Strap loses running", "At the alternator's full output." {
        at_most(STRAP_ALLOWED.id, Some(STRAP_NEAR.id)) caution("Without a strap, current returns through a throttle cable or a fuel pipe: it burns or leaks.")
    }
    output SENSOR_ERROR: Voltage, "V", "sensor-error", "Sensors are off by", "What the strap loses lies between sensor and control unit." {
        at_most(ERROR_ALLOWED.id, Some(ERROR_NEAR.id))
    }
    output SUGGESTED_CHARGE_FUSE: Current, "A", "suggested-charge-fuse", "Smallest charge fuse", "A quarter over the alternator's output; ratings of ISO 8820-3, from memory." {}
    output CHARGE_SMALLEST: Area, "mm²", "charge-smallest", "Smallest charge cable", "Loses no more than allowed when hot, stays cool enough, is guarded by its fuse; sizes of ISO 6722-1, from memory." { conductor() }
    output CHARGE_DROP: Voltage, "V", "charge-drop", "Charge cable loses", "Alternator to starter to battery, at full output." {
        at_most(CHARGE_ALLOWED.id, Some(CHARGE_NEAR.id))
    }
    output CHARGE_RETURN_DROP: Voltage, "V", "charge-return-drop", "Charge return loses", "Engine to battery, at full output." {
        at_most(CHARGE_RETURN_ALLOWED.id, Some(CHARGE_RETURN_NEAR.id))
    }
    output CHARGE_LASTING: Temperature, "°C", "charge-lasting-temperature", "Charge cable's insulation stands", "For 3000 hours, by its letter." {}
    output CHARGE_TEMPERATURE: Temperature, "°C", "charge-temperature", "Charge cable's temperature", "Its copper, at full output for long, alone in the bay." {
        at_most(CHARGE_LASTING.id, None)
    }
    output CHARGE_GUARD: Guard, "", "charge-guard", "Charge fuse and its cable", "Whether it carries the output, and opens before the cable's damage; times of ISO 8820-3, from memory." {
        verdicts(Guard::VERDICTS) caution("The fuse guards the wire, not the device. Fit it by the battery: that is where a short is fed from.")
    }

    output EXCITATION: Current, "A", "excitation", "Through the charge lamp", "Key on, engine still." {
        at_least(EXCITATION_NEEDED.id, None) caution("Below this the alternator may not begin to charge until it is revved, or not at all.")
    }
    output BACK_FEED: Current, "A", "back-feed", "Back through the charge lamp", "Key off, engine still turning: what holds a relay of the same feed closed." {
        at_most(DROP_OUT.id, None) caution("Turn the key off at idle before the first drive: the engine must stop, and the fuel pump with it.")
    }
}
