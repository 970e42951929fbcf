//! The units that working lines and drawings name most, as constants.
use super::*;

macro_rules! units {
    ($($name:ident $dimension:ident $symbol:literal;)*) => {$(
        #[doc = concat!("`", $symbol, "` of [`", stringify!($dimension), "`].")]
        pub const $name: &Unit = $dimension::DIMENSION.unit($symbol);
    )*};
}

units! {
    M Length "m"; MM Length "mm"; MM2 Area "mm²"; CM3 Volume "cm³"; MM3 Volume "mm³"; LITRE Volume "L"; CM3_PER_M VolumePerLength "cm³/m";
    RAD Angle "rad"; DEG Angle "°"; RPM RotationalSpeed "min⁻¹"; RAD_PER_S RotationalSpeed "rad/s"; RAD_PER_S2 AngularAcceleration "rad/s²";
    M_PER_S Velocity "m/s"; KM_PER_H Velocity "km/h"; N Force "N"; NM Torque "N·m"; PA Pressure "Pa"; KPA Pressure "kPa"; MPA Pressure "MPa"; GPA Pressure "GPa"; BAR Pressure "bar";
    KG Mass "kg"; G Mass "g"; KG_M2 Inertia "kg·m²"; CELSIUS Temperature "°C"; KELVIN Temperature "K"; RISE TemperatureRise "K"; S Time "s"; W Power "W"; KW Power "kW"; J Energy "J";
    A Current "A"; V Voltage "V"; OHM Resistance "Ω"; MILLIOHM Resistance "mΩ"; MILLIOHM_PER_M ResistancePerLength "mΩ/m"; AH Charge "A·h";
    W_PER_M HeatPerLength "W/m"; KM_PER_W ThermalResistance "K·m/W"; MS Time "ms"; HOUR Time "h"; DAY Time "d";
    L_PER_MIN Flow "L/min"; KG_PER_M LinearDensity "kg/m"; KG_PER_M3 Density "kg/m³"; J_PER_KG_K SpecificHeat "J/(kg·K)";
    N_PER_MM Stiffness "N/mm"; NM_PER_RAD TorsionalStiffness "N·m/rad"; HZ Frequency "Hz"; ONE Ratio ""; PERCENT Ratio "%";
}

/// Millimetres of a cylinder's bore, for which people choose their unit apart from other lengths.
pub const BORE: &Unit = &Unit { sort: Some(Sort::Bore), ..*MM };

/// Square millimetres of a conductor, which some call by its gauge.
pub const CONDUCTOR: &Unit = &Unit { sort: Some(Sort::Conductor), ..*MM2 };

/// American wire gauge, as a field names it. No scale of areas: [`gauge`](crate::show::gauge) reads and tells it.
pub const AWG: &Unit = &Unit { symbol: "AWG", also: &[], spoken: "American wire gauge", ..*CONDUCTOR };
