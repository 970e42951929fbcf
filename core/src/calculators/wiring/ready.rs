//! Rows a new build starts with: the loom of a stand-alone engine control unit in a two-seater, invented. Currents are
//! common practice, lengths a guess.

use super::choices::{Branch, Colour, Kind, Letter, Parent, Pattern, Protection, Return, Stripe, Surroundings, Switching};
use crate::spec::Cell::{self, Choice, Number, Text, Usual};

/// One circuit as it is read here; [`cells`] puts it in the order of the columns.
#[derive(Clone, Copy)]
struct Ready {
    name: &'static str,
    amperes: f64,
    metres: f64,
    kind: Kind,
    pattern: Pattern,
    /// At idle, at cruise, at most; of ramps they follow the coils.
    on: [f64; 3],
    back: Return,
    back_metres: f64,
    branch: Branch,
    insulation: Letter,
    protection: Protection,
    switching: Switching,
    from: &'static str,
    to: &'static str,
    colour: Colour,
    stripe: Stripe,
}

const PLAIN: Ready = Ready {
    name: "",
    amperes: 0.0,
    metres: 0.0,
    kind: Kind::Lamp,
    pattern: Pattern::Steady,
    on: [1.0; 3],
    back: Return::Body,
    back_metres: 0.3,
    branch: Branch::A,
    insulation: Letter::B,
    protection: Protection::Fuse,
    switching: Switching::Direct,
    from: "Fuse box",
    to: "",
    colour: Colour::Rd,
    stripe: Stripe::None,
};

const fn cells(it: Ready) -> [Cell; 24] {
    [
        Text(it.name),
        Number(it.amperes),
        Number(it.metres),
        Usual,
        Usual,
        Choice(it.kind as u8),
        Choice(it.pattern as u8),
        Number(it.on[0]),
        Number(it.on[1]),
        Number(it.on[2]),
        Choice(it.back as u8),
        Number(it.back_metres),
        Choice(it.branch as u8),
        Choice(it.insulation as u8),
        Choice(it.protection as u8),
        Choice(it.switching as u8),
        Usual,
        Usual,
        Usual,
        Usual,
        Text(it.from),
        Text(it.to),
        Choice(it.colour as u8),
        Choice(it.stripe as u8),
    ]
}

/// A relay's coil: fed with the key, its other end earthed by the control unit.
const COIL: Ready =
    Ready { amperes: 0.15, metres: 1.0, kind: Kind::PumpOrCoil, back: Return::LowSide, branch: Branch::A, from: "Key feed", ..PLAIN };

pub(super) static CIRCUITS: &[&[Cell]] = &[
    &cells(Ready {
        name: "Fuel pump",
        amperes: 7.0,
        metres: 4.0,
        kind: Kind::PumpOrCoil,
        back_metres: 0.5,
        branch: Branch::D,
        switching: Switching::Relay,
        to: "Pump at the tank",
        colour: Colour::Wh,
        stripe: Stripe::Gn,
        ..PLAIN
    }),
    &cells(Ready {
        name: "Radiator fan",
        amperes: 18.0,
        metres: 2.2,
        kind: Kind::Motor,
        on: [0.25, 0.1, 1.0],
        back_metres: 0.5,
        branch: Branch::E,
        insulation: Letter::C,
        switching: Switching::Relay,
        to: "Fan",
        colour: Colour::Bk,
        stripe: Stripe::Gn,
        ..PLAIN
    }),
    &cells(Ready {
        name: "Control unit feed",
        amperes: 0.7,
        metres: 1.2,
        kind: Kind::ControlFeed,
        back: Return::NotCounted,
        switching: Switching::Relay,
        to: "Control unit",
        ..PLAIN
    }),
    &cells(Ready {
        name: "Control unit earth",
        amperes: 5.0,
        metres: 1.5,
        kind: Kind::ControlEarth,
        pattern: Pattern::Pulsed,
        on: [0.0, 0.0, 1.0],
        back: Return::NotCounted,
        branch: Branch::B,
        protection: Protection::EarthSide,
        from: "Control unit",
        to: "Cylinder head",
        colour: Colour::Bk,
        ..PLAIN
    }),
    &cells(Ready {
        name: "Sensor earth",
        amperes: 0.03,
        metres: 1.6,
        kind: Kind::SensorEarth,
        on: [0.0, 0.0, 1.0],
        back: Return::NotCounted,
        branch: Branch::B,
        protection: Protection::EarthSide,
        from: "Sensors",
        to: "Control unit",
        colour: Colour::Gn,
        stripe: Stripe::Bk,
        ..PLAIN
    }),
    &cells(Ready { name: "Main relay coil", to: "Main relay", colour: Colour::Gn, stripe: Stripe::Wh, ..COIL }),
    &cells(Ready { name: "Pump relay coil", to: "Pump relay", colour: Colour::Gn, stripe: Stripe::Rd, ..COIL }),
    &cells(Ready { name: "Fan relay coil", on: [0.25, 0.1, 1.0], to: "Fan relay", colour: Colour::Gn, stripe: Stripe::Bu, ..COIL }),
    &cells(Ready {
        name: "Injectors, all four",
        amperes: 4.0,
        metres: 1.7,
        kind: Kind::Injectors,
        pattern: Pattern::Pulsed,
        on: [0.1, 0.3, 0.8],
        back: Return::LowSide,
        branch: Branch::B,
        insulation: Letter::C,
        switching: Switching::Relay,
        to: "Injectors",
        colour: Colour::Ye,
        stripe: Stripe::Rd,
        ..PLAIN
    }),
    &cells(Ready {
        name: "Ignition coils",
        amperes: 8.0,
        metres: 1.8,
        kind: Kind::PumpOrCoil,
        pattern: Pattern::Ramp,
        back: Return::Engine,
        branch: Branch::B,
        insulation: Letter::C,
        switching: Switching::Relay,
        to: "Coils",
        colour: Colour::Wh,
        stripe: Stripe::Rd,
        ..PLAIN
    }),
    &cells(Ready {
        name: "Oxygen sensor heater",
        amperes: 3.0,
        metres: 1.9,
        kind: Kind::Heater,
        pattern: Pattern::Pulsed,
        on: [0.33, 0.33, 1.0],
        back: Return::LowSide,
        branch: Branch::C,
        insulation: Letter::D,
        switching: Switching::Relay,
        to: "Oxygen sensor",
        colour: Colour::Vt,
        ..PLAIN
    }),
    &cells(Ready {
        name: "Charge warning lamp",
        amperes: 0.19,
        metres: 2.4,
        on: [0.0, 0.0, 1.0],
        back: Return::Engine,
        back_metres: 0.0,
        branch: Branch::B,
        insulation: Letter::C,
        from: "Key feed",
        to: "Alternator",
        colour: Colour::Bn,
        stripe: Stripe::Ye,
        ..PLAIN
    }),
    &cells(Ready {
        name: "Tachometer",
        amperes: 0.1,
        metres: 1.5,
        back: Return::NotCounted,
        protection: Protection::EarthSide,
        from: "Control unit",
        to: "Tachometer",
        colour: Colour::Wh,
        stripe: Stripe::Bk,
        ..PLAIN
    }),
    &cells(Ready { name: "Instruments feed", amperes: 0.5, metres: 1.0, to: "Gauges", colour: Colour::Gn, ..PLAIN }),
];

const fn branch(name: &'static str, letter: Branch, parent: Parent, surroundings: Surroundings) -> [Cell; 5] {
    [Text(name), Choice(letter as u8), Choice(parent as u8), Choice(surroundings as u8), Usual]
}

pub(super) static BRANCHES: &[&[Cell]] = &[
    &branch("Dash and scuttle", Branch::A, Parent::Source, Surroundings::Cabin),
    &branch("Engine", Branch::B, Parent::A, Surroundings::Bay),
    &branch("Exhaust side", Branch::C, Parent::B, Surroundings::Exhaust),
    &branch("Tunnel to the tank", Branch::D, Parent::A, Surroundings::Cabin),
    &branch("Nose", Branch::E, Parent::A, Surroundings::Bay),
];
