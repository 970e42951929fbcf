//! What the clutch asks for and what it answers.

use super::bores;
use super::sketches;
use crate::calculators::{car, flywheel};
use crate::quantity::{
    Area, Energy, Force, Length, Pressure, Ratio, Stiffness, Temperature, TemperatureRise, Torque, Volume, VolumePerLength,
};
use crate::spec::Source::{CommonPractice, Definition, FromMemory, Judgement};
use crate::spec::Verdict;
use crate::{choices, declare};

choices! {
    /// What the facings are made of.
    Lining {
        Organic "organic" "organic"
        Sintered "sintered" "sintered metal"
    }
}

choices! {
    /// Where the cover's loads come from.
    CoverFigures {
        Measured "measured" "measured, or the maker's"
        Spring "spring" "worked out from the spring's dimensions"
    }
}

choices! {
    /// What moves the release bearing.
    ReleaseBy {
        Fork "fork" "fork and slave cylinder"
        Concentric "concentric" "concentric slave cylinder"
    }
}

choices! {
    /// What the flexible hose is made of.
    HoseKind {
        Rubber "rubber" "rubber"
        Braided "braided" "braided steel over plastic"
    }
}

choices! {
    /// Whether the concentric slave has room both ways.
    ShimFit {
        NotNeeded "not-needed" "not needed with a fork"
        Fits "fits" "room both ways"
        Bottoms "bottoms" "bottoms before the plate is worn"
        RunsOut "runs-out" "runs out of stroke"
    }
}

const DIN_2093: crate::spec::Source = FromMemory("DIN 2093 and DIN EN 16984, spring steel");

declare! {
    calculator crate::calculators::CLUTCH_PLACE;
    tables {}

    input TORQUE_TO_HOLD: Torque, "N·m", "torque-to-hold", "Torque to hold", "The engine's peak torque at the flywheel, unless you want room for more." {
        possible(10.0, 3000.0) usual(100.0, 400.0, 5.0) follows(car::PEAK_TORQUE.id) group("Plate and cover")
    }
    input FACING_OUTER: Length, "mm", "facing-outer", "Outer diameter of the facings", "Across the lining of the driven plate: rule or calliper." {
        default(228.0, CommonPractice) possible(100.0, 400.0) usual(200.0, 240.0, 1.0) sketched(&sketches::FACINGS) group("Plate and cover") of_the_car()
    }
    input FACING_INNER: Length, "mm", "facing-inner", "Inner diameter of the facings", "Across the hole in the lining: rule or calliper." {
        default(150.0, CommonPractice) possible(40.0, 380.0) usual(130.0, 160.0, 1.0) sketched(&sketches::FACINGS) group("Plate and cover") of_the_car()
    }
    input SURFACES: Ratio, "", "surfaces", "Rubbing surfaces", "Count the faces that rub: two for each driven plate." {
        default(2.0, Definition) possible(1.0, 20.0) usual(1.0, 8.0, 1.0) whole() group("Plate and cover")
    }
    input LINING: Lining, "", "lining", "Facing material", "Organic is brown and woven or pressed; sintered is metal, often in pads." {
        default(0.0, CommonPractice) group("Plate and cover")
    }
    input FRICTION: Ratio, "", "friction", "Friction of the facings, at its lowest", "The maker's figure, hot; unless given, what is usual for the material." {
        possible(0.05, 0.8) usual(0.22, 0.45, 0.01) follows(USUAL_FRICTION.id) group("Plate and cover")
    }
    input COVER_FIGURES: CoverFigures, "", "cover-figures", "Loads of the cover are", "Measured on a press with scales, or from the cover's maker; the spring's dimensions only give an estimate." {
        default(0.0, CommonPractice) group("Plate and cover")
    }
    input CLAMP_LOAD: Force, "N", "clamp-load", "Clamp load", "What the cover presses the plate with, bolted up and new. Its maker knows." {
        default(5000.0, CommonPractice) possible(200.0, 8500.0) usual(4000.0, 6500.0, 50.0) group("Plate and cover") of_the_car() matters()
    }
    input CLAMP_WHEN_WORN: Ratio, "%", "clamp-when-worn", "Clamp load when worn, against new", "With the plate worn out. A diaphragm spring comes back to about where it began: its maker's curve tells." {
        default(95.0, Judgement) possible(20.0, 200.0) usual(80.0, 115.0, 1.0) group("Plate and cover")
    }
    input BEARING_LOAD: Force, "N", "bearing-load", "Bearing load at its peak", "Highest push of the fingers on the release bearing, plate new: the maker's, or pressed on scales." {
        default(1500.0, CommonPractice) possible(50.0, 3000.0) usual(1100.0, 2200.0, 25.0) group("Plate and cover") of_the_car() matters()
    }
    input BEARING_LOAD_HOLD: Force, "N", "bearing-load-hold", "Bearing load held down", "Push of the fingers with the clutch freed: the maker's, or pressed on scales past the peak." {
        default(1150.0, CommonPractice) possible(0.0, 3000.0) usual(800.0, 1800.0, 25.0) group("Plate and cover")
    }
    input BEARING_LOAD_WHEN_WORN: Ratio, "%", "bearing-load-when-worn", "Bearing load when worn, against new", "With the plate worn out the spring stands where it presses harder: the maker's, or press it packed up by the wear." {
        default(115.0, Judgement) possible(50.0, 200.0) usual(100.0, 140.0, 1.0) group("Plate and cover")
    }
    input BEARING_TRAVEL: Length, "mm", "bearing-travel", "Bearing travel that frees it", "The maker's figure. The maker rules." {
        default(7.5, CommonPractice) possible(0.5, 30.0) usual(6.5, 9.0, 0.1) group("Plate and cover")
    }
    input BEARING_TRAVEL_MOST: Length, "mm", "bearing-travel-most", "Bearing travel allowed", "Further than this bends the fingers for good. The maker rules." {
        default(9.5, CommonPractice) possible(0.5, 40.0) usual(8.5, 11.0, 0.1) group("Plate and cover")
    }
    input CUSHION: Length, "mm", "cushion", "Cushion of the plate", "How much thicker the plate is loose than clamped: calliper, then again in a vice between flat plates." {
        default(0.8, CommonPractice) possible(0.0, 3.0) usual(0.5, 1.1, 0.05) group("Plate and cover")
    }
    input CLEARANCE: Length, "mm", "clearance", "Air at the plate when free", "Both faces together, by feeler gauges, clutch held free. With cushion and run-out it makes the pressure plate's lift, usually 1.2 to 2 mm." {
        default(0.5, CommonPractice) possible(0.0, 3.0) usual(0.3, 0.9, 0.05) group("Plate and cover")
    }
    input RUN_OUT: Length, "mm", "run-out", "Run-out of the plate", "Wobble at its rim on the gearbox shaft, with a dial gauge." {
        default(0.2, CommonPractice) possible(0.0, 3.0) usual(0.1, 0.5, 0.05) group("Plate and cover")
    }
    input FINGER_RATIO: Ratio, "", "finger-ratio", "Finger ratio", "Travel of the finger tips for each of the pressure plate: two dial gauges on a press." {
        default(4.5, Judgement) possible(1.0, 12.0) usual(3.0, 5.0, 0.1) group("Plate and cover")
    }
    input FINGER_STIFFNESS: Stiffness, "N/mm", "finger-stiffness", "Stiffness of the fingers", "Load at the tips for each millimetre they bend, all together: on a press, once the plate has lifted." {
        default(1500.0, Judgement) possible(50.0, 20_000.0) usual(1000.0, 3000.0, 50.0) group("Plate and cover")
    }
    input FACING_WEAR: Length, "mm", "facing-wear", "Wear of the facings", "What both faces lose until the plate is due: thickness over the rivets now, less the maker's least." {
        default(1.5, Judgement) possible(0.0, 6.0) usual(1.0, 2.5, 0.1) group("Plate and cover")
    }

    input SPRING_OUTER: Length, "mm", "spring-outer", "Outer diameter of the spring", "Over the diaphragm's outer edge: calliper across the middle." {
        default(230.0, Judgement) possible(80.0, 400.0) usual(180.0, 260.0, 1.0) sketched(&sketches::SPRING) group("Diaphragm spring") of_the_car()
    }
    input SPRING_INNER: Length, "mm", "spring-inner", "Diameter at the finger roots", "Across the closed ring's inner edge, at the bottom of the slots." {
        default(180.0, Judgement) possible(50.0, 390.0) usual(140.0, 210.0, 1.0) sketched(&sketches::SPRING) group("Diaphragm spring") of_the_car()
    }
    input SPRING_THICKNESS: Length, "mm", "spring-thickness", "Thickness of the spring", "Micrometer on the sheet, several places: the load goes with more than its cube." {
        default(2.5, Judgement) possible(0.5, 8.0) usual(2.0, 3.2, 0.05) group("Diaphragm spring") of_the_car()
    }
    input SPRING_CONE: Length, "mm", "spring-cone", "Free height of the cone", "From outer edge to finger roots with the spring loose, less its thickness." {
        default(4.5, Judgement) possible(0.0, 20.0) usual(3.0, 6.0, 0.1) sketched(&sketches::SPRING) group("Diaphragm spring") of_the_car()
    }
    input SPRING_FITTED: Length, "mm", "spring-fitted", "Deflection when bolted up", "How much flatter the ring stands with the cover bolted on a new plate: free height less height then." {
        default(4.0, Judgement) possible(0.0, 30.0) usual(2.5, 6.0, 0.1) group("Diaphragm spring") of_the_car()
    }
    input PLATE_CIRCLE: Length, "mm", "plate-circle", "Circle on the pressure plate", "Diameter of the ridge the spring presses on: calliper across the bright ring it leaves." {
        default(224.0, Judgement) possible(60.0, 400.0) usual(175.0, 255.0, 1.0) sketched(&sketches::SPRING) group("Diaphragm spring") of_the_car()
    }
    input PIVOT_CIRCLE: Length, "mm", "pivot-circle", "Circle of the pivots", "Diameter of the wire rings or rivets the spring tips on: calliper across, middle to middle." {
        default(190.0, Judgement) possible(50.0, 390.0) usual(150.0, 220.0, 1.0) sketched(&sketches::SPRING) group("Diaphragm spring") of_the_car()
    }
    input FINGER_CIRCLE: Length, "mm", "finger-circle", "Circle at the finger tips", "Diameter on which the bearing touches: calliper across the bright marks." {
        default(44.0, Judgement) possible(10.0, 150.0) usual(35.0, 65.0, 1.0) sketched(&sketches::SPRING) group("Diaphragm spring") of_the_car()
    }
    input SPRING_MODULUS: Pressure, "GPa", "spring-modulus", "Modulus of the spring's steel", "206 GPa for spring steel." {
        default(206.0, DIN_2093) possible(50.0, 300.0) usual(195.0, 215.0, 1.0) group("Diaphragm spring")
    }

    input RELEASE_BY: ReleaseBy, "", "release-by", "The bearing is moved by", "A fork with its own cylinder, or a cylinder around the gearbox shaft." {
        default(0.0, CommonPractice) group("Slave and fork")
    }
    input SLAVE_BORE: Length, "mm", "slave-bore", "Slave bore", "Cast or stamped on the cylinder; else measure the piston." {
        bore() default(22.225, CommonPractice) possible(8.0, 60.0) usual(19.05, 25.4, 0.1) sizes(bores::SLAVE_SIZES) sketched(&sketches::CYLINDER) group("Slave and fork") of_the_car() matters() digits(4)
    }
    input FORK_RATIO: Ratio, "", "fork-ratio", "Fork ratio", "A over B: pivot to rod, over pivot to bearing. Rule on the bench; type both, as 90/50." {
        default(1.8, CommonPractice) possible(0.5, 6.0) usual(1.4, 2.2, 0.01) sketched(&sketches::FORK) group("Slave and fork")
    }
    input CONCENTRIC_AREA: Area, "mm²", "concentric-area", "Piston area of the concentric slave", "The ring its piston fills, 0.785 · (outer² − inner²): 52 and 36 mm give 1106 mm²." {
        default(1100.0, CommonPractice) possible(100.0, 4000.0) usual(700.0, 1400.0, 10.0) group("Slave and fork")
    }
    input BEARING_GAP: Length, "mm", "bearing-gap", "Air at the bearing at rest", "Feeler gauge between bearing and fingers at rest. None where the bearing always touches." {
        default(0.0, CommonPractice) possible(0.0, 10.0) usual(0.0, 3.0, 0.1) sketched(&sketches::FORK) group("Slave and fork")
    }
    input SLAVE_SPRING: Force, "N", "slave-spring", "Return spring on slave or fork", "Its pull at the slave's rod, by a luggage scale; none where the bearing always touches." {
        default(0.0, CommonPractice) possible(0.0, 500.0) usual(0.0, 100.0, 5.0) group("Slave and fork")
    }
    input FORK_EFFICIENCY: Ratio, "", "fork-efficiency", "Efficiency of the fork", "Share of the force its pivot lets through: a greased ball or bushes lose little, dry ones a tenth and more." {
        default(0.94, CommonPractice) possible(0.3, 1.0) usual(0.85, 0.97, 0.01) group("Slave and fork")
    }

    input MASTER_BORE: Length, "mm", "master-bore", "Master bore", "Cast or stamped on the cylinder; else measure the piston." {
        bore() default(19.05, CommonPractice) possible(8.0, 60.0) usual(15.875, 20.6375, 0.1) sizes(bores::MASTER_SIZES) sketched(&sketches::CYLINDER) group("Pedal and master") of_the_car() matters() digits(4)
    }
    input PEDAL_RATIO: Ratio, "", "pedal-ratio", "Pedal ratio", "A over B: pivot to the middle of the pad, over pivot to the push rod's pin. Tape; type both, as 310/52." {
        default(6.0, CommonPractice) possible(1.0, 15.0) usual(4.5, 7.0, 0.1) sketched(&sketches::PEDAL) group("Pedal and master") of_the_car()
    }
    input PEDAL_TRAVEL: Length, "mm", "pedal-travel", "Pedal travel to its stop", "Tape along the pad's way, from rest to the stop." {
        default(140.0, CommonPractice) possible(30.0, 180.0) usual(120.0, 160.0, 1.0) sketched(&sketches::PEDAL) group("Pedal and master") of_the_car()
    }
    input FREE_PLAY: Length, "mm", "free-play", "Free play at the pad", "Until the push rod meets the piston, by fingertip." {
        default(4.0, CommonPractice) possible(0.0, 60.0) usual(1.0, 12.0, 0.5) sketched(&sketches::PEDAL) group("Pedal and master")
    }
    input PORT_CLOSING: Length, "mm", "port-closing", "Port-closing travel of the master", "Push the piston by hand until no fluid comes back to the reservoir: rule on the rod. With free play it takes 6 to 20 mm of the pad." {
        default(1.0, CommonPractice) possible(0.0, 6.0) usual(0.5, 2.0, 0.1) group("Pedal and master")
    }
    input PEDAL_EFFICIENCY: Ratio, "", "pedal-efficiency", "Efficiency of the pedal", "Share of the force its pivots let through: sound bushes lose little, dry ones more." {
        default(0.97, CommonPractice) possible(0.3, 1.0) usual(0.95, 0.99, 0.01) group("Pedal and master")
    }
    input SEAL_EFFICIENCY: Ratio, "", "seal-efficiency", "Efficiency of the seals", "Share of the force the seals of both cylinders let through: the cylinder maker's, if he gives one." {
        default(0.93, CommonPractice) possible(0.3, 1.0) usual(0.88, 0.96, 0.01) group("Pedal and master")
    }
    input SEAL_STICK: Pressure, "kPa", "seal-stick", "Pressure that moves the seals", "What it takes before anything moves: a gauge in the line, pedal pressed slowly." {
        default(50.0, Judgement) possible(0.0, 500.0) usual(20.0, 100.0, 5.0) group("Pedal and master")
    }
    input PEDAL_SPRING_AT_REST: Force, "N", "pedal-spring-at-rest", "Pedal spring at rest", "Push of the return spring at the pad, pedal up: a luggage scale, cylinder unhooked." {
        default(10.0, Judgement) possible(-100.0, 200.0) usual(0.0, 40.0, 1.0) group("Pedal and master")
    }
    input PEDAL_SPRING_AT_STOP: Force, "N", "pedal-spring-at-stop", "Pedal spring at the stop", "The same with the pedal down; below zero where an over-centre spring helps." {
        default(10.0, Judgement) possible(-300.0, 300.0) usual(-60.0, 40.0, 1.0) group("Pedal and master")
    }

    input HOSE_LENGTH: Length, "mm", "hose-length", "Length of the flexible hose", "Tape along the part that is not metal pipe, fitting to fitting." {
        default(500.0, Judgement) possible(0.0, 6000.0) usual(200.0, 1500.0, 10.0) group("Line and fluid")
    }
    input HOSE_KIND: HoseKind, "", "hose", "Hose", "What the flexible part is made of." {
        default(0.0, CommonPractice) group("Line and fluid")
    }
    input HOSE_GROWTH: VolumePerLength, "cm³/m", "hose-growth", "Growth of the hose at 6.9 MPa", "The maker's figure; unless given, what is usual for the kind." {
        possible(0.0, 10.0) usual(0.15, 2.2, 0.01) follows(USUAL_HOSE_GROWTH.id) group("Line and fluid")
    }
    input TRAPPED: Volume, "cm³", "trapped", "Fluid between the pistons", "Fluid in pipe, hose and both cylinders, caught in a measure as it drains: 20 cm³ is common." {
        default(20.0, Judgement) possible(0.0, 500.0) usual(10.0, 60.0, 1.0) group("Line and fluid")
    }
    input BULK_MODULUS: Pressure, "GPa", "bulk-modulus", "Bulk modulus of the fluid", "How stiff the fluid is, from its data sheet. A little air in it ruins this." {
        default(1.5, CommonPractice) possible(0.005, 5.0) usual(1.2, 1.8, 0.05) group("Line and fluid")
    }

    input BELL_DEPTH: Length, "mm", "bell-depth", "Depth of the bell housing", "From the face that meets the engine to the face the concentric slave is bolted to: straightedge and depth gauge." {
        possible(1.0, 500.0) usual(60.0, 200.0, 0.1) group("Shim of a concentric slave") of_the_car()
    }
    input FINGER_HEIGHT: Length, "mm", "finger-height", "Height of the finger tips", "From the engine's face to the finger tips, plate new, cover bolted up: straightedge and depth gauge. Less than nothing where they lie behind it." {
        possible(-100.0, 400.0) usual(10.0, 120.0, 0.1) group("Shim of a concentric slave") of_the_car()
    }
    input COLLAPSED_LENGTH: Length, "mm", "collapsed-length", "Length of the slave pushed back", "Calliper from its seat to the bearing's face, pushed right back." {
        possible(5.0, 300.0) usual(30.0, 80.0, 0.1) group("Shim of a concentric slave") of_the_car()
    }
    input SLAVE_STROKE: Length, "mm", "slave-stroke", "Stroke of the concentric slave", "How far its bearing may come out. The maker rules." {
        possible(1.0, 100.0) usual(12.0, 30.0, 0.1) group("Shim of a concentric slave") of_the_car()
    }
    input SHIM: Length, "mm", "shim", "Shim fitted", "Thickness behind the concentric slave, by micrometer." {
        default(0.0, Definition) possible(0.0, 60.0) usual(0.0, 12.0, 0.1) group("Shim of a concentric slave")
    }
    input SHIM_RESERVE: Length, "mm", "shim-reserve", "Room kept behind a worn plate", "What must be left when the fingers have come back all the way." {
        default(1.0, CommonPractice) possible(0.0, 10.0) usual(0.5, 3.0, 0.1) group("Shim of a concentric slave")
    }

    input DUMP_HEAT: Energy, "kJ", "dump-heat", "Heat of a launch let in at once", "The flywheel's figure, unless typed." {
        possible(0.0, 1000.0) usual(1.0, 20.0, 0.1) follows(flywheel::DUMP_HEAT.id) group("Launch")
    }
    input SLIP_HEAT: Energy, "kJ", "slip-heat", "Heat of a launch slipped in", "The flywheel's figure, unless typed." {
        possible(0.0, 1000.0) usual(5.0, 60.0, 0.5) follows(flywheel::SLIP_HEAT.id) group("Launch")
    }
    input WARM_BEFORE: Temperature, "°C", "warm-before", "Plate and wheel before it", "As hot as the bell housing in traffic: a probe through its inspection hole." {
        default(100.0, Judgement) possible(-40.0, 500.0) usual(60.0, 150.0, 5.0) group("Launch")
    }
    input FACINGS_STAND: Temperature, "°C", "facings-stand", "Facings stand", "Hotter, they slip and glaze. The maker's figure; sintered metal stands more than organic." {
        default(250.0, Judgement) possible(50.0, 900.0) usual(200.0, 450.0, 10.0) group("Launch")
    }

    input MARGIN_LEAST: Ratio, "", "margin-least", "Margin wanted", "Torque held over torque to hold, at the lowest friction. Over 2 it bites harshly." {
        default(1.2, CommonPractice) possible(1.0, 5.0) usual(1.1, 1.5, 0.05) group("Limits")
    }
    input MARGIN_WORN_LEAST: Ratio, "", "margin-worn-least", "Margin wanted, plate worn", "Below 1 it slips before the plate is due." {
        default(1.0, Definition) possible(0.5, 5.0) usual(1.0, 1.5, 0.05) group("Limits")
    }
    input EFFORT_COMFORTABLE: Force, "N", "effort-comfortable", "Comfortable pedal force", "98 to 127 N is called comfortable (SAE 2014-36-0139, abstract); to 180 N is heavy." {
        default(130.0, CommonPractice) possible(10.0, 800.0) usual(90.0, 180.0, 5.0) group("Limits")
    }
    input EFFORT_LIMIT: Force, "N", "effort-limit", "Highest pedal force", "More than this no one drives with in traffic." {
        default(220.0, CommonPractice) possible(10.0, 800.0) usual(150.0, 250.0, 5.0) group("Limits")
    }
    input EFFORT_LEAST: Force, "N", "effort-least", "Least pedal force when free", "With none, the pedal stays down." {
        default(0.0, Definition) possible(0.0, 200.0) usual(0.0, 60.0, 5.0) group("Limits")
    }
    input PEDAL_LEFT_WANTED: Length, "mm", "pedal-left-wanted", "Pedal travel wanted in hand", "Left when the clutch is free: heat, wear and a little air take from it." {
        default(8.0, Judgement) possible(0.0, 100.0) usual(3.0, 25.0, 1.0) group("Limits")
    }
    input PEDAL_LEFT_LEAST: Length, "mm", "pedal-left-least", "Least pedal travel in hand", "With none, it only just frees on the stop." {
        default(0.0, Definition) possible(0.0, 100.0) usual(0.0, 10.0, 1.0) group("Limits")
    }
    input PRESSURE_NEAR: Pressure, "MPa", "pressure-near", "High line pressure", "1.3 to 3.5 MPa is usual." {
        default(4.0, CommonPractice) possible(0.1, 20.0) usual(3.0, 5.0, 0.1) group("Limits")
    }
    input PRESSURE_LIMIT: Pressure, "MPa", "pressure-limit", "Highest line pressure", "What hose, seals and fittings should see at most." {
        default(7.0, CommonPractice) possible(0.1, 30.0) usual(5.0, 10.0, 0.1) group("Limits")
    }
    input THRUST_LIMIT: Force, "N", "thrust-limit", "Load the crankshaft's thrust bearing takes", "The engine maker's limit. Ask for it." {
        default(3000.0, Judgement) possible(100.0, 20_000.0) usual(1500.0, 5000.0, 100.0) group("Limits")
    }

    output USUAL_FRICTION: Ratio, "", "usual-friction", "Friction usual for this material", "What such facings still have when hot." {}
    output USUAL_HOSE_GROWTH: VolumePerLength, "cm³/m", "usual-hose-growth", "Growth usual for this hose", "At 6.9 MPa." {}

    output CLAMP_NEW: Force, "N", "clamp-new", "Clamp load, plate new", "What presses the plate." { estimate_while(COVER_FIGURES.id, 1) }
    output CLAMP_WORN: Force, "N", "clamp-worn", "Clamp load, plate worn", "What presses the plate when it is due." { estimate_while(COVER_FIGURES.id, 1) }
    output LOAD_PEAK: Force, "N", "load-peak", "Peak bearing load, plate new", "On the way to release." { estimate_while(COVER_FIGURES.id, 1) }
    output LOAD_HOLD: Force, "N", "load-hold", "Bearing load when free, plate new", "With the clutch held down." { estimate_while(COVER_FIGURES.id, 1) }
    output LOAD_PEAK_WORN: Force, "N", "load-peak-worn", "Peak bearing load, plate worn", "On the way to release." { estimate_while(COVER_FIGURES.id, 1) }
    output LOAD_HOLD_WORN: Force, "N", "load-hold-worn", "Bearing load when free, plate worn", "With the clutch held down." { estimate_while(COVER_FIGURES.id, 1) }
    output FINGER_RATIO_IN_FORCE: Ratio, "", "finger-ratio-in-force", "Finger ratio in force", "As given, or from the spring's circles." {}
    output PLATE_LIFT: Length, "mm", "plate-lift", "Lift of the pressure plate", "Cushion, air and run-out together; 1.2 to 2 mm is usual." {}
    output TRAVEL_FROM_LIFT: Length, "mm", "travel-from-lift", "Bearing travel by lift and fingers", "A check on the maker's figure." {
        at_most(BEARING_TRAVEL_MOST.id, Some(BEARING_TRAVEL.id)) estimate_while(COVER_FIGURES.id, 1)
    }
    output TRAVEL_NEEDED: Length, "mm", "travel-needed", "Bearing travel needed, plate new", "Given, or from the spring's dimensions." {}
    output TRAVEL_NEEDED_WORN: Length, "mm", "travel-needed-worn", "Bearing travel needed, plate worn", "Given, or from the spring's dimensions." {}
    output FINGER_SHIFT: Length, "mm", "finger-shift", "Shift of the finger tips by wear", "Towards the gearbox, until the plate is due." {}
    output SPRING_PEAK_AT: Length, "mm", "spring-peak-at", "Deflection where the spring peaks", "Before its load dips." {}
    output SPRING_PEAK: Force, "N", "spring-peak", "Clamp load at the spring's peak", "The most this cover can press." {}
    output SPRING_VALLEY_AT: Length, "mm", "spring-valley-at", "Deflection where the spring dips lowest", "Before its load rises again." {}
    output SPRING_VALLEY: Force, "N", "spring-valley", "Clamp load at the spring's dip", "Below nothing, the spring turns over and stays." {}

    output CAPACITY: Torque, "N·m", "capacity", "Torque held, bedded in", "By uniform wear, the lower and lasting figure." {
        caution("Oil, heat and a tired cover each take from this.")
    }
    output CAPACITY_NEW_FACINGS: Torque, "N·m", "capacity-new-facings", "Torque held, facings new", "By uniform pressure." {}
    output CAPACITY_WORN: Torque, "N·m", "capacity-worn", "Torque held, plate worn", "By uniform wear, with the clamp load then." {}
    output MARGIN: Ratio, "", "margin", "Margin over torque", "Torque held, bedded in, over torque to hold. Over 2 it bites harshly." {
        at_least(MARGIN_LEAST.id, None) estimate_while(COVER_FIGURES.id, 1) caution("Oil, heat and a tired cover each take from this.")
    }
    output MARGIN_NEW_FACINGS: Ratio, "", "margin-new-facings", "Margin, facings new", "By uniform pressure." {}
    output MARGIN_WORN: Ratio, "", "margin-worn", "Margin, plate worn", "By uniform wear, with the clamp load then." {
        at_least(MARGIN_WORN_LEAST.id, Some(MARGIN_LEAST.id)) estimate_while(COVER_FIGURES.id, 1)
    }
    output CLAMP_WANTED: Force, "N", "clamp-wanted", "Clamp load wanted", "Which gives the margin wanted." {}
    output FACING_PRESSURE: Pressure, "kPa", "facing-pressure", "Pressure on the facings", "Clamp load over the whole facing." {}
    output FACING_PRESSURE_EDGE: Pressure, "kPa", "facing-pressure-edge", "Pressure at the inner edge", "Highest, bedded in." {}
    output FACING_PRESSURE_OUTER: Pressure, "kPa", "facing-pressure-outer", "Pressure at the outer edge", "Lowest, bedded in." {}

    output SLAVE_AREA: Area, "mm²", "slave-area", "Area of the slave's piston", "Plain, or the concentric slave's ring." {}
    output EQUIVALENT_BORE: Length, "mm", "equivalent-bore", "Slave as a plain bore", "A plain piston of the same area." { bore() digits(4) }
    output HYDRAULIC_RATIO: Ratio, "", "hydraulic-ratio", "Hydraulic ratio", "Slave area over master area." {}
    output OVERALL_RATIO: Ratio, "", "overall-ratio", "Overall ratio", "Pad travel for each of the bearing, before hose and fluid give." {}
    output PEDAL_FORCE: Force, "N", "pedal-force", "Pedal force at its peak", "Pushing slowly to release, plate new." {
        at_most(EFFORT_LIMIT.id, Some(EFFORT_COMFORTABLE.id)) estimate_while(COVER_FIGURES.id, 1)
    }
    output PEDAL_FORCE_AT: Length, "mm", "pedal-force-at", "Pedal travel at that peak", "From rest, plate new." {}
    output PEDAL_FORCE_HOLD: Force, "N", "pedal-force-hold", "Pedal force when free", "Reaching release; friction makes holding it lighter." {
        at_least(EFFORT_LEAST.id, None) estimate_while(COVER_FIGURES.id, 1)
    }
    output PEDAL_FORCE_WORN: Force, "N", "pedal-force-worn", "Pedal force at its peak, plate worn", "Pushing slowly to release." {
        at_most(EFFORT_LIMIT.id, Some(EFFORT_COMFORTABLE.id)) estimate_while(COVER_FIGURES.id, 1)
    }
    output PEDAL_AT_RELEASE: Length, "mm", "pedal-at-release", "Pedal travel at release", "Of the pad from rest, plate new." {}
    output PEDAL_LEFT: Length, "mm", "pedal-left", "Pedal travel left when free", "Before the stop, plate new." {
        at_least(PEDAL_LEFT_LEAST.id, Some(PEDAL_LEFT_WANTED.id)) estimate_while(COVER_FIGURES.id, 1)
        caution("Prove it: in gear, engine running, driven wheels off the ground on stands, no drag. Air in the line takes travel unseen.")
    }
    output PEDAL_LEFT_WORN: Length, "mm", "pedal-left-worn", "Pedal travel left when free, plate worn", "Before the stop." {
        at_least(PEDAL_LEFT_LEAST.id, Some(PEDAL_LEFT_WANTED.id)) estimate_while(COVER_FIGURES.id, 1)
    }
    output GOES_FREE_PLAY: Length, "mm", "goes-free-play", "Goes into free play", "Of the pad's travel." {}
    output GOES_PORT: Length, "mm", "goes-port", "Goes into closing the port", "Of the pad's travel." {}
    output GOES_GAP: Length, "mm", "goes-gap", "Goes into air at the bearing", "Of the pad's travel." {}
    output GOES_HOSE: Length, "mm", "goes-hose", "Goes into the hose", "Of the pad's travel." {}
    output GOES_FLUID: Length, "mm", "goes-fluid", "Goes into the fluid", "Of the pad's travel." {}
    output GOES_RELEASE: Length, "mm", "goes-release", "Goes into freeing the clutch", "Of the pad's travel." {}
    output SLAVE_TRAVEL: Length, "mm", "slave-travel", "Travel of the slave at release", "From rest, the air at the bearing included." {}
    output LINE_PRESSURE: Pressure, "MPa", "line-pressure", "Line pressure at its peak", "The higher of plate new and plate worn." {
        at_most(PRESSURE_LIMIT.id, Some(PRESSURE_NEAR.id)) estimate_while(COVER_FIGURES.id, 1)
        caution("Only the fluid these seals are made for: the wrong one swells them, and brake fluid takes paint off.")
    }
    output BEARING_AT_STOP: Length, "mm", "bearing-at-stop", "Bearing travel with the pedal on its stop", "Plate new, where the fingers go furthest." {
        at_most(BEARING_TRAVEL_MOST.id, None) estimate_while(COVER_FIGURES.id, 1)
        caution("Set the pedal's stop before the first press: fingers bent too far do not recover. The cover maker's setting rules.")
    }
    output THRUST: Force, "N", "thrust", "Load on the crankshaft's thrust bearing", "The bearing load goes through the crankshaft; the higher of plate new and worn." {
        at_most(THRUST_LIMIT.id, None) estimate_while(COVER_FIGURES.id, 1) caution("Starting with the pedal down loads a dry thrust bearing.")
    }
    output PEDAL_WORK: Energy, "J", "pedal-work", "Work of the foot to release", "One slow push, plate new." {}
    output BEARING_WORK: Energy, "J", "bearing-work", "Work that reaches the fingers", "One slow push, plate new." {}

    output DUMP_RISE: TemperatureRise, "K", "dump-rise", "A launch let in at once warms it by", "The metal next to the facings." {}
    output SLIP_RISE: TemperatureRise, "K", "slip-rise", "A launch slipped in warms it by", "The metal next to the facings." {}
    output LAUNCHES: Ratio, "", "launches", "Slipped launches in a row", "From before it to as hot as the facings stand, nothing lost between." {
        digits(2) caution("Hot facings slip, and stay glazed when they are cold again. Let it cool between launches.")
    }

    output SHIM_FIT: ShimFit, "", "shim-fit", "Shim behind the slave", "Room for wear behind the concentric slave, and stroke ahead of it." {
        verdicts(&[Verdict::Within, Verdict::Within, Verdict::Beyond, Verdict::Beyond])
        caution("A slave that bottoms holds a worn clutch open; one that runs out spills its fluid.")
    }
    output SHIM_GAP: Length, "mm", "shim-gap", "Slave stands out at rest", "Plate new, with this shim." {}
    output SHIM_LEFT_WHEN_WORN: Length, "mm", "shim-left-when-worn", "Room left behind a worn plate", "With this shim." {}
    output SHIM_STROKE_LEFT: Length, "mm", "shim-stroke-left", "Stroke left with the pedal on its stop", "With this shim." {}
    output SHIM_THINNEST: Length, "mm", "shim-thinnest", "Thinnest shim", "With less, the slave runs out of stroke." {}
    output SHIM_THICKEST: Length, "mm", "shim-thickest", "Thickest shim", "With more, it bottoms before the plate is worn." {}
}
