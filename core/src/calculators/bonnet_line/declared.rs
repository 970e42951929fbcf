//! What the bonnet line asks for and what it answers.

use super::sketches;
use crate::calculators::{car, clutch};
use crate::measure::Guide;
use crate::quantity::{
    Angle, AngularAcceleration, Density, Length, Mass, Pressure, Ratio, RotationalSpeed, Stiffness, TemperatureRise, Torque,
};
use crate::spec::Cell::{Choice, Missing, Number, Text};
use crate::spec::Source::{CommonPractice, Definition, FromMemory, Judgement};
use crate::spec::Words;
use crate::tolerance::Distribution;
use crate::{choices, declare};

choices! {
    /// How much room a point wants.
    Manner {
        Rigid "rigid" "rigid and cool"
        Moving "moving" "moving, soft or hot"
    }
}

choices! {
    /// What lies over a point.
    Over {
        Bonnet "bonnet" "the bonnet"
        Fixed "fixed" "tunnel, scuttle or brace"
    }
}

choices! {
    /// What heights were measured on.
    MeasuredOn {
        Mounts "mounts" "the engine sitting on its mounts"
        Slung "slung" "the engine slung, or a bare bracket"
    }
}

choices! {
    /// What block and head are cast of.
    MountMetal {
        Aluminium "aluminium" "aluminium"
        Iron "iron" "cast iron"
    }
}

choices! {
    /// How the bonnet opens.
    Opens {
        Front "front" "hinged at the front"
        Rear "rear" "hinged at the rear"
        Lifts "lifts" "lifts off"
    }
}

choices! {
    /// How the propshaft's yokes stand to each other.
    Yokes {
        InLine "in-line" "in line"
        Crossed "crossed" "a quarter turn apart"
    }
}

choices! {
    /// Which dimension a clearance hangs on.
    Contributor {
        PointUp "point-up" "height of the point on the engine"
        PointAlong "point-along" "place of the point along the engine"
        PointAcross "point-across" "place of the point across the engine"
        EngineHeight "engine-height" "height of the engine"
        ForeAft "fore-aft" "engine fore or aft"
        Sideways "sideways" "engine sideways"
        Pitch "pitch" "pitch of the engine"
        BonnetHeights "bonnet-heights" "heights of the bonnet"
        BonnetPlaces "bonnet-places" "places where the bonnet was measured"
        Ceiling "ceiling" "height of what is fixed over it"
    }
}

choices! {
    /// What the roll of the engine is limited by.
    RollLimit {
        Engine "engine" "the engine's torque"
        Clutch "clutch" "the clutch"
        Tyres "tyres" "the tyres' grip"
    }
}

pub(super) const CLAY: &str = "Prove it on the car with modelling clay before the engine runs: bonnet shut, engine rocked both ways. What moves needs more room; nothing sharp or hot near pipes and wires.";
const SUMP: &str = "Check at full bump with two aboard, and watch oil pressure in a long corner.";
const PROP: &str = "Recheck plunge and angles through the axle's full travel, with the car on its wheels.";

declare! {
    calculator crate::calculators::BONNET_LINE_PLACE;
    tables {
        POINTS: "points", "Highest points of the engine", "What comes near the bonnet, from the engine's own origin: midway between its two mounts.", 1..=24, &[
            &[Text("oil filler cap"), Number(-60.0), Number(40.0), Number(395.0), Choice(0), Choice(0), Missing],
            &[Text("cam cover, front"), Number(-190.0), Number(0.0), Number(372.0), Choice(0), Choice(0), Missing],
            &[Text("cam cover, rear"), Number(180.0), Number(0.0), Number(372.0), Choice(0), Choice(0), Missing],
            &[Text("intake trumpets"), Number(-20.0), Number(210.0), Number(345.0), Choice(0), Choice(0), Missing],
            &[Text("air filter"), Number(0.0), Number(235.0), Number(352.0), Choice(1), Choice(0), Missing],
            &[Text("coolant outlet"), Number(-230.0), Number(-60.0), Number(345.0), Choice(1), Choice(0), Missing],
            &[Text("alternator"), Number(-200.0), Number(-190.0), Number(240.0), Choice(1), Choice(0), Missing],
            &[Text("bellhousing"), Number(300.0), Number(0.0), Number(160.0), Choice(0), Choice(1), Number(250.0)],
        ];
        BONNET: "bonnet", "Underside of the bonnet", "Heights of the underside above the chassis pads, at stations along the car. Rule and straightedge, bonnet shut.", 2..=16, &[
            &[Number(-320.0), Number(420.0), Number(468.0), Number(420.0)],
            &[Number(-160.0), Number(436.0), Number(481.0), Number(436.0)],
            &[Number(0.0), Number(449.0), Number(492.0), Number(449.0)],
            &[Number(160.0), Number(458.0), Number(500.0), Number(458.0)],
            &[Number(320.0), Number(464.0), Number(506.0), Number(464.0)],
        ];
        UNDER: "under", "Lowest points of engine and gearbox", "What comes near the road and the chassis, from the engine's own origin.", 1..=16, &[
            &[Text("sump, front"), Number(-120.0), Number(100.0), Number(-185.0)],
            &[Text("sump, rear"), Number(120.0), Number(100.0), Number(-200.0)],
            &[Text("bellhousing"), Number(300.0), Number(0.0), Number(-172.0)],
            &[Text("gearbox"), Number(600.0), Number(0.0), Number(-120.0)],
        ];
        LOWER: "lower", "What lies under the engine", "Crossmembers, rack, exhaust: from where to where along the car, and how high its top is, from the chassis pads.", 0..=16, &[
            &[Text("steering rack"), Number(-200.0), Number(-110.0), Number(-165.0)],
            &[Text("gearbox crossmember"), Number(550.0), Number(640.0), Number(-132.0)],
        ];
    }

    input HEIGHT: Length, "mm", "height", "Height of the engine", "From the chassis pads up to the line between the engine's mounting faces: rule through rubber and packers." {
        default(60.0, Judgement) possible(-300.0, 500.0) usual(20.0, 100.0, 1.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::ALONG_THE_CAR) group("Engine's place") of_the_car() matters()
    }
    input FORE_AFT: Length, "mm", "fore-aft", "Engine further back", "Plumb lines from pads and mounts to the floor, tape between. Minus is forward." {
        default(0.0, Definition) possible(-500.0, 500.0) usual(-50.0, 50.0, 1.0) give_or_take(MEASURING.id, SPREAD.id) group("Engine's place")
    }
    input SIDEWAYS: Length, "mm", "sideways", "Engine to the side", "From the car's middle line, by plumb lines: to the right as one stands before it; minus is left." {
        default(0.0, Definition) possible(-300.0, 300.0) usual(-40.0, 40.0, 1.0) give_or_take(MEASURING.id, SPREAD.id) group("Engine's place")
    }
    input PITCH: Angle, "°", "pitch", "Tail down by", "An inclinometer on a face square to the crank, the car level at ride height." {
        default(3.0, CommonPractice) possible(-15.0, 15.0) usual(0.0, 5.0, 0.1) give_or_take(PITCH_READING.id, SPREAD.id) group("Engine's place") of_the_car() matters()
    }
    input MEASURED_ON: MeasuredOn, "", "measured-on", "Heights were measured with", "An engine on its mounts has sagged already; one held by a hoist has not." {
        default(0.0, CommonPractice) group("Engine's place")
    }

    column(POINTS) POINT_NAME: Words, "", "name", "Point", "What it is." { text(24) group("Points of the engine") }
    column(POINTS) POINT_ALONG: Length, "mm", "along", "Behind the mounts", "Back along the crank from the line between the mounts, square edge and rule; minus is in front." {
        possible(-2000.0, 2000.0) usual(-400.0, 400.0, 5.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::POINT) group("Points of the engine") of_the_car() guided(Guide::Walk(POINTS))
    }
    column(POINTS) POINT_ACROSS: Length, "mm", "across", "To the right", "From the crank's middle line, rule and square, as one faces the engine from the front; minus is left." {
        possible(-1000.0, 1000.0) usual(-300.0, 300.0, 5.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::POINT) group("Points of the engine") of_the_car() guided(Guide::Walk(POINTS))
    }
    column(POINTS) POINT_UP: Length, "mm", "up", "Above the mounts", "Square to the crank from the line between the mounting faces: straightedge on the point, rule down." {
        possible(-1000.0, 1500.0) usual(0.0, 500.0, 1.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::POINT) group("Points of the engine") of_the_car() guided(Guide::Walk(POINTS))
    }
    column(POINTS) MANNER: Manner, "", "manner", "It is", "What moves, shakes or gets hot wants more room." { default(0.0, CommonPractice) group("Points of the engine") }
    column(POINTS) OVER: Over, "", "over", "Over it is", "The bonnet as measured, or something fixed with a height of its own." { default(0.0, CommonPractice) group("Points of the engine") }
    column(POINTS) CEILING: Length, "mm", "ceiling", "Height of what is fixed", "Only for what is not the bonnet: rule from the chassis pads up to its underside." {
        possible(-500.0, 2000.0) usual(100.0, 500.0, 1.0) give_or_take(MEASURING.id, SPREAD.id) group("Points of the engine") of_the_car()
    }
    column(POINTS) WANTED: Length, "mm", "wanted", "Room wanted", "As is usual for such a point, unless you want other." {
        possible(0.0, 200.0) usual(10.0, 40.0, 1.0) follows_by(MANNER.id, &[(0, RIGID_WANTED.id), (1, MOVING_WANTED.id)]) group("Points of the engine")
    }

    column(BONNET) STATION: Length, "mm", "along", "Behind the pads", "Tape along the car from the line between the chassis pads; minus is in front." {
        possible(-3000.0, 3000.0) usual(-500.0, 500.0, 10.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::ALONG_THE_CAR) group("Bonnet") of_the_car() guided(Guide::Walk(BONNET))
    }
    column(BONNET) LEFT: Length, "mm", "left", "Height on the left", "As one faces the car, at the outer distance, above the pads. Clay on a stick, bonnet shut and opened, then rule." {
        possible(-500.0, 2000.0) usual(300.0, 600.0, 1.0) give_or_take(BONNET_VARIES.id, SPREAD.id) sketched(&sketches::ACROSS_THE_CAR) group("Bonnet") of_the_car() guided(Guide::Walk(BONNET))
    }
    column(BONNET) MIDDLE: Length, "mm", "middle", "Height in the middle", "Above the chassis pads. Clay on a stick from the straightedge, bonnet shut and opened, then rule; or a rod through a hole." {
        possible(-500.0, 2000.0) usual(300.0, 600.0, 1.0) give_or_take(BONNET_VARIES.id, SPREAD.id) sketched(&sketches::ACROSS_THE_CAR) group("Bonnet") of_the_car() guided(Guide::Walk(BONNET))
    }
    column(BONNET) RIGHT: Length, "mm", "right", "Height on the right", "As one faces the car, at the outer distance, above the pads. Clay on a stick, bonnet shut and opened, then rule." {
        possible(-500.0, 2000.0) usual(300.0, 600.0, 1.0) give_or_take(BONNET_VARIES.id, SPREAD.id) sketched(&sketches::ACROSS_THE_CAR) group("Bonnet") of_the_car() guided(Guide::Walk(BONNET))
    }
    input OUT: Length, "mm", "out", "Outer heights are from the middle", "Tape from the middle line to where the outer heights were taken." {
        default(250.0, CommonPractice) possible(50.0, 1500.0) usual(150.0, 400.0, 5.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::ACROSS_THE_CAR) group("Bonnet")
    }
    input PRESSED: Length, "mm", "pressed", "Bonnet pressed or fluttering down", "Lean on it with one hand over the engine and measure." {
        default(4.0, CommonPractice) possible(0.0, 100.0) usual(0.0, 15.0, 0.5) group("Bonnet")
    }
    input OPENS: Opens, "", "opens", "The bonnet is", "How it opens." { default(0.0, CommonPractice) group("Bonnet") }
    input HINGE_ALONG: Length, "mm", "hinge-along", "Hinge behind the pads", "Tape along the car from the pads to its pin; minus is in front." {
        default(-650.0, Judgement) possible(-3000.0, 3000.0) usual(-1000.0, 1000.0, 10.0) group("Bonnet") of_the_car()
    }
    input HINGE_UP: Length, "mm", "hinge-up", "Hinge above the pads", "Rule from the pads' height up to its pin." {
        default(330.0, Judgement) possible(-1000.0, 2000.0) usual(0.0, 600.0, 5.0) group("Bonnet") of_the_car()
    }
    input OPENING: Angle, "°", "opening", "Opens by", "From shut to its stay: inclinometer laid on the bonnet, shut and open." {
        default(60.0, CommonPractice) possible(0.0, 120.0) usual(30.0, 90.0, 1.0) group("Bonnet")
    }

    column(UNDER) UNDER_NAME: Words, "", "name", "Point", "What it is." { text(24) group("Under the engine") }
    column(UNDER) UNDER_ALONG: Length, "mm", "along", "Behind the mounts", "Back along the crank from the line between the mounts, square and rule; minus is in front." {
        possible(-2000.0, 3000.0) usual(-400.0, 800.0, 5.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::UNDERNEATH) group("Under the engine") of_the_car() guided(Guide::Walk(UNDER))
    }
    column(UNDER) UNDER_ACROSS: Length, "mm", "across", "To the side", "Rule from the crank's middle line, either way: it comes down when the engine rolls." {
        possible(-1000.0, 1000.0) usual(-200.0, 200.0, 5.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::UNDERNEATH) group("Under the engine") of_the_car() guided(Guide::Walk(UNDER))
    }
    column(UNDER) UNDER_UP: Length, "mm", "up", "Above the mounts", "Square to the crank from the line between the mounting faces, straightedge and rule; minus is below, as most are." {
        possible(-1000.0, 1000.0) usual(-300.0, 0.0, 1.0) give_or_take(MEASURING.id, SPREAD.id) sketched(&sketches::UNDERNEATH) group("Under the engine") of_the_car() guided(Guide::Walk(UNDER))
    }
    column(LOWER) LOWER_NAME: Words, "", "name", "Part", "What it is." { text(24) group("Under the engine") }
    column(LOWER) LOWER_FROM: Length, "mm", "from", "From", "Tape to where it begins, behind the chassis pads; minus is in front." {
        possible(-3000.0, 3000.0) usual(-500.0, 1000.0, 5.0) group("Under the engine") of_the_car()
    }
    column(LOWER) LOWER_TO: Length, "mm", "to", "To", "Tape to where it ends, behind the chassis pads." {
        possible(-3000.0, 3000.0) usual(-500.0, 1000.0, 5.0) group("Under the engine") of_the_car()
    }
    column(LOWER) LOWER_TOP: Length, "mm", "top", "Height of its top", "Rule from the chassis pads to its top; minus is below them." {
        possible(-1000.0, 1000.0) usual(-300.0, 0.0, 1.0) give_or_take(MEASURING.id, SPREAD.id) group("Under the engine") of_the_car()
    }
    input PADS_UP: Length, "mm", "pads-up", "Chassis pads above the road", "Rule from the floor, car level at ride height, two aboard." {
        default(280.0, Judgement) possible(0.0, 1500.0) usual(180.0, 500.0, 1.0) give_or_take(MEASURING.id, SPREAD.id) group("Under the engine") of_the_car() matters()
    }
    input BUMP: Length, "mm", "bump", "Bump travel", "Rule between axle and bump stop at ride height, scaled to the wheel." {
        default(60.0, CommonPractice) possible(0.0, 300.0) usual(40.0, 100.0, 1.0) group("Under the engine")
    }
    input SQUASH: Length, "mm", "squash", "Tyre squash", "How much the tyre flattens when the bump stops are met: rule from rim to floor, loaded and not." {
        default(10.0, CommonPractice) possible(0.0, 60.0) usual(5.0, 20.0, 1.0) group("Under the engine")
    }
    input SUMP_WIDTH: Length, "mm", "sump-width", "Width of the sump inside", "Rule across the sump inside, at the oil's level." {
        default(220.0, CommonPractice) possible(20.0, 800.0) usual(150.0, 300.0, 5.0) group("Under the engine")
    }
    input CORNERING: Ratio, "", "cornering", "Cornering, in g", "What the tyres hold in a long corner: a phone's accelerometer, laid flat." {
        default(1.0, CommonPractice) possible(0.0, 3.0) usual(0.7, 1.5, 0.05) group("Under the engine")
    }

    input WEIGHT: Mass, "kg", "weight", "Engine and gearbox", "With ancillaries and oil, on a hoist's scales." {
        default(165.0, CommonPractice) possible(20.0, 800.0) usual(120.0, 220.0, 1.0) group("Mounts")
    }
    input CENTRE: Length, "mm", "centre", "Centre of weight behind the mounts", "Where it balances on one sling: tape to the line between the mounts." {
        default(220.0, Judgement) possible(-1000.0, 2000.0) usual(100.0, 400.0, 5.0) group("Mounts")
    }
    input MOUNT_STIFFNESS: Stiffness, "N/mm", "mount-stiffness", "Stiffness of each engine mount", "Its maker's, or a known weight and the travel it makes; solid ones 1500 and more." {
        default(150.0, CommonPractice) possible(10.0, 20_000.0) usual(80.0, 400.0, 5.0) group("Mounts")
    }
    input HALF_SPACING: Length, "mm", "half-spacing", "Mounts from the middle line", "Half of what the tape says between the two." {
        default(220.0, CommonPractice) possible(50.0, 600.0) usual(150.0, 300.0, 5.0) group("Mounts")
    }
    input GEARBOX_STIFFNESS: Stiffness, "N/mm", "gearbox-stiffness", "Stiffness of the gearbox mount", "Its maker's, or a known weight and the travel it makes." {
        default(200.0, CommonPractice) possible(10.0, 20_000.0) usual(80.0, 400.0, 5.0) group("Mounts")
    }
    input GEARBOX_MOUNT: Length, "mm", "gearbox-mount", "Gearbox mount behind the others", "Tape along the crank, from the engine's mounts." {
        default(700.0, CommonPractice) possible(200.0, 3000.0) usual(500.0, 1100.0, 10.0) group("Mounts")
    }
    input DYNAMIC: Ratio, "", "dynamic", "Stiffer when shaken, by", "Rubber moved fast against rubber loaded slowly: its maker's figure, if he gives one." {
        default(1.3, CommonPractice) possible(1.0, 3.0) usual(1.1, 1.6, 0.05) group("Mounts")
    }
    input BOUNCE_G: Ratio, "", "bounce-g", "Bounce, in g either way", "On top of standing still: a kerb or a hump." {
        default(2.0, CommonPractice) possible(0.0, 8.0) usual(1.0, 3.0, 0.1) group("Mounts")
    }
    input ROLL_AXIS_UP: Length, "mm", "roll-axis-up", "Roll axis above the mounts", "The height it rocks about, at the engine's mounts." {
        default(0.0, CommonPractice) possible(-500.0, 500.0) usual(-100.0, 150.0, 5.0) group("Mounts")
    }
    input ROLL_AXIS_FALLS: Angle, "°", "roll-axis-falls", "Roll axis falls to the rear by", "Against the crank: towards a gearbox mount that sits lower." {
        default(0.0, CommonPractice) possible(-30.0, 30.0) usual(0.0, 15.0, 0.5) group("Mounts")
    }
    input METAL: MountMetal, "", "metal", "Block and head are", "What grows when warm." { default(0.0, CommonPractice) group("Mounts") }
    input WARM_UP: TemperatureRise, "K", "warm-up", "Warmer when running by", "Engine hot, against the day it was measured: the coolant's gauge less the day's." {
        default(75.0, CommonPractice) possible(0.0, 200.0) usual(50.0, 100.0, 5.0) group("Mounts")
    }

    input ROLL_ENGINE: Torque, "N·m", "roll-engine", "Torque of the engine", "Its peak, unless typed." {
        possible(0.0, 3000.0) usual(100.0, 400.0, 5.0) follows(car::PEAK_TORQUE.id) group("Torque that rolls it")
    }
    input ROLL_CLUTCH: Torque, "N·m", "roll-clutch", "Torque the clutch passes", "The most, with new facings, unless typed." {
        possible(0.0, 5000.0) usual(100.0, 600.0, 5.0) follows(clutch::CAPACITY_NEW_FACINGS.id) group("Torque that rolls it")
    }
    input GRIP: Ratio, "", "grip", "Grip of the tyres", "Friction on a dry road; sticky tyres have more. A phone's accelerometer in a hard stop tells." {
        default(1.0, CommonPractice) possible(0.1, 2.5) usual(0.8, 1.4, 0.05) group("Torque that rolls it")
    }
    input DRIVEN_SHARE: Ratio, "%", "driven-share", "Weight on the driven wheels", "Share of the car's, squatting as it pulls away: axle scales, and some 5 % for the squat." {
        default(58.0, CommonPractice) possible(5.0, 100.0) usual(48.0, 70.0, 1.0) group("Torque that rolls it")
    }

    input FLANGE_ALONG: Length, "mm", "flange-along", "Front joint behind the mounts", "Tape along the crank, from the mounts to the middle of the joint's cross at the gearbox." {
        default(820.0, CommonPractice) possible(0.0, 4000.0) usual(600.0, 1200.0, 5.0) group("Propshaft") of_the_car()
    }
    input FLANGE_UP: Length, "mm", "flange-up", "Front joint above the mounts", "Square to the crank, straightedge and rule; minus is below, as on most." {
        default(-60.0, CommonPractice) possible(-500.0, 500.0) usual(-120.0, 0.0, 1.0) group("Propshaft") of_the_car()
    }
    input PINION_ALONG: Length, "mm", "pinion-along", "Rear joint behind the pads", "Tape along the car, from the pads to the middle of the joint's cross at the axle." {
        default(1520.0, CommonPractice) possible(200.0, 6000.0) usual(1200.0, 2200.0, 5.0) group("Propshaft") of_the_car()
    }
    input PINION_UP: Length, "mm", "pinion-up", "Rear joint above the pads", "Rule from the floor to its middle, less the pads' height, car level at ride height; minus is below them." {
        default(-58.0, CommonPractice) possible(-1000.0, 1000.0) usual(-150.0, 50.0, 1.0) group("Propshaft") of_the_car()
    }
    input PINION_ACROSS: Length, "mm", "pinion-across", "Rear joint to the side", "By a plumb line, from the middle line of the car, to the right as one stands before it." {
        default(0.0, CommonPractice) possible(-500.0, 500.0) usual(-50.0, 50.0, 1.0) group("Propshaft")
    }
    input NOSE_UP: Angle, "°", "nose-up", "Pinion's nose up by", "An inclinometer on the flange, the car level at ride height." {
        default(2.8, CommonPractice) possible(-15.0, 15.0) usual(0.0, 5.0, 0.1) group("Propshaft") of_the_car()
    }
    input YOKES: Yokes, "", "yokes", "Yokes of the shaft stand", "Look along the shaft: the two yokes welded to it belong in one plane." { default(0.0, CommonPractice) group("Propshaft") }
    input PROP_SPEED: RotationalSpeed, "min⁻¹", "prop-speed", "Highest speed of the propshaft", "In the highest gear at the engine's highest speed, unless the car cannot reach it." {
        possible(100.0, 30_000.0) usual(4000.0, 10_000.0, 100.0) follows(PROP_SPEED_GEARED.id) group("Propshaft")
    }
    input TUBE_OUTER: Length, "mm", "tube-outer", "Tube, outside", "Calliper on the plain tube." {
        default(63.5, CommonPractice) possible(20.0, 200.0) usual(45.0, 90.0, 0.5) group("Propshaft")
    }
    input TUBE_INNER: Length, "mm", "tube-inner", "Tube, inside", "Outside less two walls: calliper at a cut end, or the maker's." {
        default(58.5, CommonPractice) possible(0.0, 190.0) usual(40.0, 85.0, 0.5) group("Propshaft")
    }
    input TUBE_MODULUS: Pressure, "GPa", "tube-modulus", "Modulus of the tube", "Steel 206, aluminium 70." {
        default(206.0, FromMemory("handbooks of materials")) possible(20.0, 400.0) usual(65.0, 210.0, 1.0) group("Propshaft")
    }
    input TUBE_DENSITY: Density, "kg/m³", "tube-density", "Density of the tube", "Steel 7850, aluminium 2700." {
        default(7850.0, FromMemory("handbooks of materials")) possible(1000.0, 12_000.0) usual(2700.0, 7850.0, 50.0) group("Propshaft")
    }

    input MEASURING: Length, "mm", "measuring", "Measured to", "What your tape, rule and straightedge may be off by, to either side." {
        default(2.0, CommonPractice) possible(0.0, 50.0) usual(0.5, 5.0, 0.1) group("How well it was measured") matters()
    }
    input BONNET_VARIES: Length, "mm", "bonnet-varies", "Bonnet's heights to", "A moulded bonnet sits a little elsewhere each time it is shut." {
        default(3.0, CommonPractice) possible(0.0, 50.0) usual(1.0, 8.0, 0.1) group("How well it was measured")
    }
    input PITCH_READING: Angle, "°", "pitch-reading", "Pitch read to", "What the inclinometer and the floor may be off by." {
        default(0.3, Judgement) possible(0.0, 5.0) usual(0.1, 1.0, 0.05) group("How well it was measured")
    }
    input SPREAD: Distribution, "", "spread", "Within that, values are", "How such errors are spread, unless a dimension has a spread of its own." { default(0.0, CommonPractice) group("How well it was measured") }

    input TRY_CUT: Length, "mm", "try-cut", "Cut off the tightest point", "A lower filler cap, say." {
        default(10.0, CommonPractice) possible(0.0, 200.0) usual(0.0, 30.0, 1.0) group("What would help")
    }
    input TRY_PACKER: Length, "mm", "try-packer", "Thinner under the engine mounts", "The engine tips about the gearbox's mount." {
        default(5.0, CommonPractice) possible(0.0, 200.0) usual(0.0, 20.0, 1.0) group("What would help")
    }
    input TRY_DROP: Length, "mm", "try-drop", "Engine down, level", "Mounts and gearbox mount alike. The sump comes down as much." {
        default(5.0, CommonPractice) possible(0.0, 200.0) usual(0.0, 30.0, 1.0) group("What would help")
    }
    input TRY_TILT: Angle, "°", "try-tilt", "Tail further down", "About the engine's mounts: what lies in front of them rises. The joints bend otherwise." {
        default(1.0, CommonPractice) possible(0.0, 15.0) usual(0.0, 3.0, 0.1) group("What would help")
    }
    input TRY_RAISE: Length, "mm", "try-raise", "Bonnet up", "A bulge, or blocks under its hinges and pins." {
        default(10.0, CommonPractice) possible(0.0, 300.0) usual(0.0, 40.0, 1.0) group("What would help")
    }

    input RIGID_WANTED: Length, "mm", "rigid-wanted", "Room wanted over what is rigid", "Standing, as measured." {
        default(20.0, CommonPractice) possible(0.0, 200.0) usual(10.0, 30.0, 1.0) group("Limits")
    }
    input MOVING_WANTED: Length, "mm", "moving-wanted", "Room wanted over what moves or is hot", "Standing, as measured." {
        default(25.0, CommonPractice) possible(0.0, 200.0) usual(15.0, 40.0, 1.0) group("Limits")
    }
    input ROOM_LEAST: Length, "mm", "room-least", "Least room", "Standing, as measured: with less it is beyond." {
        default(12.0, CommonPractice) possible(0.0, 200.0) usual(5.0, 20.0, 1.0) group("Limits")
    }
    input WORST_WANTED: Length, "mm", "worst-wanted", "Room wanted with everything at its worst", "Rolled, bounced, hot, every dimension against it." {
        default(5.0, CommonPractice) possible(0.0, 100.0) usual(0.0, 10.0, 0.5) group("Limits")
    }
    input WORST_LEAST: Length, "mm", "worst-least", "Least room with everything at its worst", "Nought: it touches." {
        default(0.0, Definition) possible(-50.0, 100.0) usual(-5.0, 5.0, 0.5) group("Limits")
    }
    input CHANCE_MOST: Ratio, "%", "chance-most", "Highest chance of contact", "With the engine rolled and bounced." {
        default(0.1, Judgement) possible(0.0, 50.0) usual(0.01, 1.0, 0.01) group("Limits")
    }
    input OPENING_LEAST: Length, "mm", "opening-least", "Least room as the bonnet opens", "Over its whole swing." {
        default(5.0, Judgement) possible(0.0, 100.0) usual(0.0, 15.0, 1.0) group("Limits")
    }
    input ROAD_LEAST: Length, "mm", "road-least", "Least room over the road, standing", "Under the lowest point." {
        default(110.0, CommonPractice) possible(0.0, 500.0) usual(80.0, 150.0, 5.0) group("Limits")
    }
    input ROAD_BUMP_LEAST: Length, "mm", "road-bump-least", "Least room over the road after a bump", "With the bump stops met." {
        default(40.0, CommonPractice) possible(0.0, 300.0) usual(20.0, 60.0, 5.0) group("Limits")
    }
    input JOINT_WANTED: Angle, "°", "joint-wanted", "Each joint better below", "Standing at ride height." {
        default(3.0, CommonPractice) possible(0.0, 30.0) usual(1.0, 5.0, 0.1) group("Limits")
    }
    input JOINT_MOST: Angle, "°", "joint-most", "Each joint at most", "Standing at ride height." {
        default(5.0, CommonPractice) possible(0.0, 40.0) usual(2.0, 8.0, 0.1) group("Limits")
    }
    input JOINT_BENT: Angle, "°", "joint-bent", "Each joint better above", "Dead straight, its needles do not turn and mark their cups." {
        default(0.5, CommonPractice) possible(0.0, 5.0) usual(0.2, 1.0, 0.1) group("Limits")
    }
    input JOINT_STRAIGHT: Angle, "°", "joint-straight", "Each joint at least", "With less it is beyond." {
        default(0.0, CommonPractice) possible(0.0, 5.0) usual(0.0, 0.5, 0.05) group("Limits")
    }
    input SHAKE_WANTED: AngularAcceleration, "rad/s²", "shake-wanted", "Shake of the driveline better below", "What the joints leave of unevenness, at the shaft's highest speed." {
        default(300.0, Judgement) possible(0.0, 20_000.0) usual(100.0, 500.0, 10.0) group("Limits")
    }
    input SHAKE_MOST: AngularAcceleration, "rad/s²", "shake-most", "Shake of the driveline at most", "What the joints leave of unevenness, at the shaft's highest speed." {
        default(500.0, Judgement) possible(0.0, 50_000.0) usual(200.0, 1000.0, 10.0) group("Limits")
    }
    input WHIRL_MOST: Ratio, "%", "whirl-most", "Speed of the shaft against its critical speed, at most", "Near it, a shaft bows out and does not come back." {
        default(75.0, CommonPractice) possible(10.0, 100.0) usual(60.0, 80.0, 1.0) group("Limits")
    }

    output SAG: Length, "mm", "sag", "Sag at the engine mounts", "Still to come, if it was measured slung." {}
    output SAG_GEARBOX: Length, "mm", "sag-gearbox", "Sag at the gearbox mount", "Still to come, if it was measured slung." {}
    output REST_HEIGHT: Length, "mm", "rest-height", "Height at rest", "Of the line between the mounts, sag taken off." {}
    output REST_PITCH: Angle, "°", "rest-pitch", "Tail down at rest", "With what the two ends sag unlike." {}
    output BOUNCE: Length, "mm", "bounce", "Bounce at the engine mounts", "Up, and as much down." {}
    output BOUNCE_GEARBOX: Length, "mm", "bounce-gearbox", "Bounce at the gearbox mount", "Up, and as much down." {}
    output GEAR_TORQUE: Torque, "N·m", "gear-torque", "Engine's torque behind first gear", "If nothing else gives." {}
    output CLUTCH_TORQUE: Torque, "N·m", "clutch-torque", "Clutch's torque behind first gear", "If nothing else gives." {}
    output GRIP_TORQUE: Torque, "N·m", "grip-torque", "Tyres' torque before the axle", "Above this they spin." {}
    output ROLL_TORQUE: Torque, "N·m", "roll-torque", "Torque that rolls the engine", "The least of the three; on the overrun and in reverse it turns about." {}
    output ROLL_LIMIT: RollLimit, "", "roll-limit", "The roll is limited by", "Which of the three is least." {}
    output ROLL: Angle, "°", "roll", "Roll, either way", "Slowly loaded; a dropped clutch throws it further." {}
    output ROLL_FULL: Angle, "°", "roll-full", "Roll if the tyres could take it all", "By the lesser of engine and clutch." {}
    output GROWTH: Ratio, "%", "growth", "Growth when warm", "Of every length of the engine." { digits(2) }

    output_column(POINTS) CLEARANCE: Length, "mm", "clearance", "Room standing", "Upwards, as measured and sagged, nothing moving." {
        at_least(ROOM_LEAST.id, Some(WANTED.id)) caution(CLAY)
    }
    output_column(POINTS) WORKING: Length, "mm", "working", "Room rolled and bounced", "Upwards on the worse side, hot, bonnet pressed down; every dimension as given." {}
    output_column(POINTS) WORST: Length, "mm", "worst", "Room with everything at its worst", "Rolled and bounced, and every dimension against it at once." {
        at_least(WORST_LEAST.id, Some(WORST_WANTED.id)) caution(CLAY)
    }
    output_column(POINTS) RSS: Length, "mm", "rss", "Room by root-sum-square", "Rolled and bounced, the tolerances added as squares." { at_least(WORST_LEAST.id, None) }
    output_column(POINTS) CHANCE: Ratio, "%", "chance", "Chance of contact", "Rolled and bounced, to first order." { at_most(CHANCE_MOST.id, None) digits(2) }
    output_column(POINTS) SWINGING: Length, "mm", "swinging", "Least room as the bonnet opens", "Over its swing, engine at rest; past the heights measured it counts as free." { at_least(OPENING_LEAST.id, None) }
    output LEAST: Length, "mm", "least", "Least room above, standing", "Of all points." {}
    output LEAST_WORKING: Length, "mm", "least-working", "Least room above, rolled and bounced", "Of all points." {}
    output LEAST_WORST: Length, "mm", "least-worst", "Least room above at worst", "Of all points." {}
    output LEAST_RSS: Length, "mm", "least-rss", "Least room above by root-sum-square", "Of all points." {}
    output CHANCE_ANY: Ratio, "%", "chance-any", "Chance of any contact", "At most: the points' chances added." { at_most(CHANCE_MOST.id, None) caution(CLAY) digits(2) }
    output FIRST: Contributor, "", "first", "The tightest point hangs most on", "By share of variance." {}
    output FIRST_SHARE: Ratio, "%", "first-share", "Its share", "Of the variance." {}
    output SECOND: Contributor, "", "second", "Next on", "By share of variance." {}
    output SECOND_SHARE: Ratio, "%", "second-share", "Its share", "Of the variance." {}
    output THIRD: Contributor, "", "third", "Then on", "By share of variance." {}
    output THIRD_SHARE: Ratio, "%", "third-share", "Its share", "Of the variance." {}
    output BUYS_CUT: Length, "mm", "buys-cut", "A cut buys", "Of the least room standing, until another point is tightest." {}
    output BUYS_PACKER: Length, "mm", "buys-packer", "Thinner packers buy", "Of the least room standing; minus: it costs." {}
    output BUYS_DROP: Length, "mm", "buys-drop", "A lower engine buys", "Of the least room standing." {}
    output BUYS_TILT: Length, "mm", "buys-tilt", "A tilted engine buys", "Of the least room standing; minus: it costs." {}
    output BUYS_RAISE: Length, "mm", "buys-raise", "A raised bonnet buys", "Of the least room standing; what is fixed stays." {}

    output_column(UNDER) UNDER_CLEARANCE: Length, "mm", "clearance", "Room underneath", "Downwards to the chassis part below it, or the road." { at_least(ROOM_LEAST.id, Some(RIGID_WANTED.id)) }
    output_column(UNDER) UNDER_WORST: Length, "mm", "worst", "Room underneath at worst", "Rolled and bounced, and every dimension against it at once." { at_least(WORST_LEAST.id, Some(WORST_WANTED.id)) }
    output_column(UNDER) UNDER_RSS: Length, "mm", "rss", "Room underneath by root-sum-square", "Rolled and bounced, the tolerances added as squares." { at_least(WORST_LEAST.id, None) }
    output_column(UNDER) UNDER_CHANCE: Ratio, "%", "chance", "Chance of contact underneath", "Rolled and bounced, to first order." { at_most(CHANCE_MOST.id, None) digits(2) }
    output_column(UNDER) UNDER_ROAD: Length, "mm", "road", "Height over the road", "Standing." {}
    output LEAST_UNDER: Length, "mm", "least-under", "Least room underneath", "Of all points, to the chassis or the road." {}
    output LEAST_UNDER_WORST: Length, "mm", "least-under-worst", "Least room underneath at worst", "Of all points, to the chassis or the road." {}
    output ROAD: Length, "mm", "road", "Lowest point over the road", "Standing." { at_least(ROAD_LEAST.id, None) caution(SUMP) }
    output ROAD_BUMP: Length, "mm", "road-bump", "Lowest point over the road after a bump", "Bump stops met, tyre squashed, engine bounced down." { at_least(ROAD_BUMP_LEAST.id, None) caution(SUMP) }
    output SURGE: Length, "mm", "surge", "Oil climbs in a corner by", "At the sump's outer wall; as much is missing on the other side." { caution(SUMP) }

    output FRONT_JOINT: Angle, "°", "front-joint", "Front joint bends", "Seen from the side and from above together." {
        at_most(JOINT_MOST.id, Some(JOINT_WANTED.id)) at_least(JOINT_STRAIGHT.id, Some(JOINT_BENT.id)) caution(PROP)
    }
    output REAR_JOINT: Angle, "°", "rear-joint", "Rear joint bends", "Seen from the side and from above together." {
        at_most(JOINT_MOST.id, Some(JOINT_WANTED.id)) at_least(JOINT_STRAIGHT.id, Some(JOINT_BENT.id)) caution(PROP)
    }
    output RESIDUAL: Angle, "°", "residual", "Both together run like one joint bent", "What the two do not cancel." {}
    output UNEVENNESS: Ratio, "%", "unevenness", "Unevenness left", "Swing of the pinion's speed, twice a turn; makers of shafts ask for 0.27 % at most." { digits(2) }
    output SHAFT_UNEVENNESS: Ratio, "%", "shaft-unevenness", "Unevenness of the shaft itself", "By its front joint." { digits(2) }
    output PROP_SPEED_GEARED: RotationalSpeed, "min⁻¹", "prop-speed-geared", "Propshaft speed in the highest gear", "At the engine's highest speed." {}
    output SHAKE: AngularAcceleration, "rad/s²", "shake", "Shake of the driveline", "Peak acceleration the joints leave, at the shaft's highest speed." { at_most(SHAKE_MOST.id, Some(SHAKE_WANTED.id)) caution(PROP) }
    output SHAFT_LENGTH: Length, "mm", "shaft-length", "Length of the propshaft", "Between the middles of its joints." { digits(4) }
    output CRITICAL_SPEED: RotationalSpeed, "min⁻¹", "critical-speed", "Critical speed of the propshaft", "At which the bare tube whirls." {}
    output WHIRL: Ratio, "%", "whirl", "Speed against critical speed", "Highest speed over it." { at_most(WHIRL_MOST.id, None) caution(PROP) }

    output HIGHEST_ABOVE: Length, "mm", "highest-above", "Engine no higher than, for the bonnet", "With more, a limit above is passed." {}
    output LOWEST_BELOW: Length, "mm", "lowest-below", "Engine no lower than, for what is underneath", "With less, a limit below is passed." {}
    output LOWEST_BEHIND: Length, "mm", "lowest-behind", "Engine no lower than, for the joints", "With less, a joint bends or shakes too much, or stands too straight." {}
    output HIGHEST_BEHIND: Length, "mm", "highest-behind", "Engine no higher than, for the joints", "With more, a joint bends or shakes too much, or stands too straight." {}
    output BAND: Length, "mm", "band", "Room for the engine's height", "Between the lowest and the highest that suit above, below and behind; minus: none suits." {}
    output MOVE: Length, "mm", "move", "Engine up by", "To come inside that band by the shortest way; minus is down." {}
}
