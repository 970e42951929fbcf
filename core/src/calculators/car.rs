//! Car and engine: what every other calculator stands on.
//!
//! Questions: how strong is the engine at the flywheel, how fast is the car in each gear, how fast does the engine
//! turn at motorway speed?

pub mod engine;
pub mod gearing;
mod proofs;
mod shown;

use super::Calculator;
use crate::plan::Step;
use crate::quantity::{Area, Length, Mass, Power, Ratio, RotationalSpeed, Temperature, Torque, Velocity, Voltage, Volume};
use crate::spec::Cell::Number;
use crate::spec::Source::{CommonPractice, FromMemory, Judgement};
use crate::spec::Words;
use crate::{choices, declare};

choices! {
    /// Where the torque curve was measured.
    TorqueBasis {
        Flywheel "flywheel" "at the flywheel"
        Indicated "indicated" "indicated, friction not yet taken off"
        Wheels "wheels" "at the wheels, referred to the engine"
    }
}

declare! {
    calculator 0;
    tables {
        TORQUE_CURVE: "torque", "Torque curve", "Points of the full-throttle torque curve.", 1..=24, &[
            &[Number(1000.0), Number(170.0)], &[Number(2000.0), Number(205.0)], &[Number(3000.0), Number(225.0)],
            &[Number(4000.0), Number(240.0)], &[Number(5000.0), Number(235.0)], &[Number(6000.0), Number(215.0)],
            &[Number(6500.0), Number(200.0)], &[Number(7000.0), Number(180.0)],
        ];
        GEARS: "gears", "Gears", "Forward gears, first to top.", 1..=8, &[
            &[Number(3.636)], &[Number(2.214)], &[Number(1.422)], &[Number(1.0)], &[Number(0.802)],
        ];
    }

    input NAME: Words, "", "name", "Car", "What you call this car." { text(60) group("Car") }
    input IDLE: RotationalSpeed, "min⁻¹", "idle", "Idle speed", "Engine speed at a warm idle, read from the tachometer or the control unit." {
        default(850.0, CommonPractice) possible(300.0, 2500.0) usual(650.0, 1200.0, 10.0) group("Engine") of_the_car() matters()
    }
    input CRUISE: RotationalSpeed, "min⁻¹", "cruise", "Cruising speed of the engine", "Tachometer at a steady motorway cruise in top gear." {
        default(3300.0, CommonPractice) possible(500.0, 12_000.0) usual(2000.0, 5000.0, 50.0) group("Engine")
    }
    input POWER_SPEED: RotationalSpeed, "min⁻¹", "power-speed", "Speed of peak power", "Engine speed at which power peaks: the bench's or rolling road's sheet, or the maker." {
        default(6000.0, CommonPractice) possible(1000.0, 15_000.0) usual(4500.0, 8000.0, 50.0) group("Engine")
    }
    input REDLINE: RotationalSpeed, "min⁻¹", "redline", "Redline", "Engine speed at which the limiter cuts in: from the control unit's settings." {
        default(6800.0, CommonPractice) possible(1000.0, 15_000.0) usual(5500.0, 8500.0, 50.0) group("Engine") of_the_car() matters()
    }
    input OVERSHOOT: RotationalSpeed, "min⁻¹", "limiter-overshoot", "Limiter overshoot", "How far the engine runs past the redline before the limiter catches it: the highest speed in a log, less the redline." {
        default(300.0, CommonPractice) possible(0.0, 2000.0) usual(0.0, 600.0, 50.0) group("Engine")
    }
    input DISPLACEMENT: Volume, "cm³", "displacement", "Displacement", "Swept volume of all cylinders: the maker's, or 0.785 · bore² · stroke for each." {
        default(2500.0, CommonPractice) possible(200.0, 12_000.0) usual(1600.0, 3000.0, 50.0) group("Engine")
    }
    input TORQUE_BASIS: TorqueBasis, "", "torque-basis", "Torque was measured", "Where the torque curve was measured: makers and engine benches give it at the flywheel, a rolling road at the wheels." {
        default(0.0, CommonPractice) group("Engine")
    }
    input FRICTION_FACTOR: Ratio, "", "friction-factor", "Engine friction, against the usual fit", "Share of the usual friction fit this engine has; used with an indicated torque curve and a shut throttle. Nobody measures it at home: leave it at 1." {
        default(1.0, Judgement) possible(0.0, 3.0) usual(0.75, 1.1, 0.05) group("Engine")
    }
    column(TORQUE_CURVE) CURVE_SPEED: RotationalSpeed, "min⁻¹", "speed", "Engine speed", "Engine speed of this point, off the bench's or rolling road's sheet." {
        default(f64::NAN, CommonPractice) possible(100.0, 20_000.0) usual(500.0, 8000.0, 100.0) group("Engine") of_the_car()
    }
    column(TORQUE_CURVE) CURVE_TORQUE: Torque, "N·m", "torque", "Torque", "Full-throttle torque at this speed, off the same sheet." {
        default(f64::NAN, Judgement) possible(0.0, 3000.0) usual(100.0, 350.0, 5.0) group("Engine") of_the_car()
    }

    input FINAL_DRIVE: Ratio, "", "final-drive", "Final drive", "Teeth of the crown wheel over teeth of the pinion, on its tag; or turns of the propshaft for one turn of both wheels." {
        default(3.9, CommonPractice) possible(0.5, 20.0) usual(2.8, 5.2, 0.01) group("Gearbox and axle") of_the_car()
    }
    column(GEARS) GEAR_RATIO: Ratio, "", "ratio", "Ratio", "Turns of the engine for one of the propshaft in this gear: the maker's, or turn the crank by hand and count." {
        default(f64::NAN, CommonPractice) possible(0.1, 20.0) usual(0.6, 4.5, 0.001) group("Gearbox and axle") of_the_car()
    }
    input DRIVELINE_EFFICIENCY: Ratio, "", "driveline-efficiency", "Driveline efficiency", "Share of the flywheel's power that reaches the wheels: power at the wheels over power on the bench, if you have both." {
        default(0.90, CommonPractice) possible(0.3, 1.0) usual(0.85, 0.94, 0.01) group("Gearbox and axle")
    }

    input TYRE_WIDTH: Length, "mm", "tyre-width", "Tyre width", "First number of the size on the driven tyre's wall: 195 of 195/50 R15." {
        default(195.0, CommonPractice) possible(50.0, 500.0) usual(135.0, 255.0, 5.0) group("Tyres") of_the_car()
    }
    input TYRE_ASPECT: Ratio, "%", "tyre-aspect", "Tyre height in per cent of width", "Second number of the size: 50 of 195/50 R15; 80 where none is given." {
        default(50.0, CommonPractice) possible(20.0, 120.0) usual(35.0, 80.0, 5.0) group("Tyres") of_the_car()
    }
    input RIM: Length, "in", "rim", "Rim diameter", "Last number of the size: 15 of 195/50 R15." {
        default(15.0, CommonPractice) possible(6.0, 26.0) usual(12.0, 19.0, 1.0) group("Tyres") of_the_car()
    }
    input ROLLING_RADIUS: Length, "mm", "rolling-radius", "Rolling radius", "Roll the laden car one turn of the driven wheel, measure the way, divide by 6.283." {
        possible(100.0, 800.0) usual(240.0, 340.0, 1.0) follows(ROLLING_RADIUS_FROM_SIZE.id) group("Tyres")
    }

    input MASS: Mass, "kg", "mass", "Mass with driver", "Car ready to drive with its driver, on scales." {
        default(730.0, CommonPractice) possible(100.0, 5000.0) usual(600.0, 900.0, 5.0) group("Car") of_the_car()
    }
    input DRAG_AREA: Area, "m²", "drag-area", "Drag area", "Frontal area times drag coefficient: published for a like body, or from a coast-down on a still day." {
        default(0.75, CommonPractice) possible(0.1, 5.0) usual(0.60, 0.95, 0.01) group("Car")
    }
    input ROLLING_RESISTANCE: Ratio, "", "rolling-resistance", "Rolling resistance", "Pull that keeps it rolling at a walk on a level floor, by a luggage scale, over its weight." {
        default(0.013, FromMemory("handbooks of vehicle dynamics")) possible(0.0, 0.2) usual(0.010, 0.016, 0.001) group("Car")
    }
    input MOTORWAY_SPEED: Velocity, "km/h", "motorway-speed", "Motorway speed", "The speed you cruise at, by satellite rather than the speedometer." {
        default(110.0, CommonPractice) possible(10.0, 400.0) usual(80.0, 130.0, 1.0) group("Car")
    }
    input SYSTEM_VOLTAGE: Voltage, "V", "system-voltage", "Voltage while charging", "Meter across the battery's posts, engine at a fast idle." {
        default(13.8, CommonPractice) possible(4.0, 60.0) usual(13.2, 14.6, 0.1) group("Car")
    }
    input ALTITUDE: Length, "m", "altitude", "Altitude", "Highest place you drive to, off a map: air presses less there." {
        default(200.0, CommonPractice) possible(-500.0, 5000.0) usual(0.0, 2500.0, 50.0) group("Surroundings")
    }
    input AIR_TEMPERATURE: Temperature, "°C", "air-temperature", "Air temperature", "A thermometer in the shade on a warm day." {
        default(25.0, CommonPractice) possible(-50.0, 60.0) usual(-10.0, 40.0, 1.0) group("Surroundings")
    }

    output_column(TORQUE_CURVE) FLYWHEEL_TORQUE: Torque, "N·m", "flywheel-torque", "Torque at the flywheel", "What reaches the clutch at this speed." {}
    output_column(TORQUE_CURVE) CURVE_POWER: Power, "kW", "power", "Power", "Power at the flywheel at this speed." {}
    output PEAK_TORQUE: Torque, "N·m", "peak-torque", "Peak torque", "Highest torque of the curve at the flywheel." {}
    output PEAK_TORQUE_SPEED: RotationalSpeed, "min⁻¹", "peak-torque-speed", "Speed of peak torque", "Engine speed of the curve's highest torque." {}
    output PEAK_POWER: Power, "kW", "peak-power", "Peak power", "Highest power of the curve's points at the flywheel, up to the highest engine speed." {}
    output PEAK_POWER_SPEED: RotationalSpeed, "min⁻¹", "peak-power-speed", "Speed of peak power on the curve", "Engine speed of the curve's highest power." {}
    output HIGHEST_SPEED: RotationalSpeed, "min⁻¹", "highest-speed", "Highest engine speed", "Redline and the limiter's overshoot." {
        caution("Allow for limiter overshoot and a missed shift.") digits(4)
    }
    output TYRE_DIAMETER: Length, "mm", "tyre-diameter", "Tyre diameter", "Of the unloaded tyre, from its size." { digits(4) }
    output ROLLING_RADIUS_FROM_SIZE: Length, "mm", "rolling-radius-from-size", "Rolling radius from the tyre's size", "Loaded: the way rolled is a little under the tyre's girth." {}
    output_column(GEARS) SPEED_PER_THOUSAND: Velocity, "km/h", "speed-per-1000", "Road speed per 1000 min⁻¹", "In this gear." {}
    output_column(GEARS) SPEED_AT_POWER: Velocity, "km/h", "speed-at-power", "Road speed at peak power", "In this gear." {}
    output_column(GEARS) SPEED_AT_REDLINE: Velocity, "km/h", "speed-at-redline", "Road speed at redline", "In this gear." {}
    output CRUISE_ENGINE_SPEED: RotationalSpeed, "min⁻¹", "cruise-engine-speed", "Engine speed at motorway speed", "In top gear, that of the least ratio." {}
}

const STEPS: &[Step] = &[engine::FLYWHEEL, engine::PEAKS, engine::HIGHEST, gearing::TYRE, gearing::SPEEDS];

/// The calculator.
pub static CAR: Calculator = Calculator {
    key: "car",
    label: "Car",
    question: "How strong is the engine, and how is the car geared?",
    specs: SPECS,
    tables: TABLES,
    steps: STEPS,
    choice: REDLINE.id,
    sentence: shown::sentence,
    scene: None,
    charts: &[shown::torque_and_power, shown::gear_speeds],
    listing: None,
    diagrams: None,
    proofs: proofs::PROOFS,
    cautions: &[],
    letters: &[],
    leaves_out: &[
        "Tyre growth at speed and slip of the driven wheels.",
        "Torque between the curve's points: peaks are those of the points given.",
    ],
};
