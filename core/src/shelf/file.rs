//! The form of a shelf file. `public/shelf.schema.json` is made from these types, and a test holds it to them.
//!
//! Read field by field, so that one that cannot be read costs itself alone: each type says which text belongs to which
//! field, and the field's own type what may stand there.

use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::value::RawValue;

/// Why a field was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wrong {
    /// No such field.
    Unknown,
    /// Something else stands there than belongs there.
    Kind,
}

/// What is read field by field.
pub(super) trait Form: Default {
    /// Takes one field.
    fn take(&mut self, field: &str, raw: &RawValue) -> Result<(), Wrong>;
}

/// The fields of an object in their order, those that stand twice included.
pub(super) struct Fields<'a>(pub(super) Vec<(String, &'a RawValue)>);

impl<'de> Deserialize<'de> for Fields<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Object;
        impl<'de> Visitor<'de> for Object {
            type Value = Fields<'de>;

            fn expecting(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                out.write_str("an object")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Fields<'de>, A::Error> {
                let mut fields = Vec::new();
                while let Some(field) = map.next_entry()? {
                    fields.push(field);
                }
                Ok(Fields(fields))
            }
        }
        deserializer.deserialize_map(Object)
    }
}

/// A number, or a number with its unit as one types it; a choice by its key.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(untagged))]
pub(super) enum Figure {
    /// In the unit of what it is for.
    Number(f64),
    /// `"7/8 in"`, `"22,2 mm"`.
    Text(String),
}

fn of<'a, T: Deserialize<'a>>(raw: &'a RawValue) -> Result<T, Wrong> {
    serde_json::from_str(raw.get()).map_err(|_| Wrong::Kind)
}

fn figure(raw: &RawValue) -> Result<Figure, Wrong> {
    if raw.get().starts_with('"') { of(raw).map(Figure::Text) } else { of(raw).map(Figure::Number) }
}

/// Programs that write files put `null` where there is nothing.
fn given(raw: &RawValue) -> Option<&RawValue> {
    (raw.get() != "null").then_some(raw)
}

/// Lists of objects stay as text until each is read alone.
fn list(raw: &RawValue) -> Result<Vec<Box<RawValue>>, Wrong> {
    of(raw)
}

/// Several parts that fit to an engine and its car.
#[derive(Debug, Default)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(deny_unknown_fields, rename_all = "kebab-case", title = "Trialfit shelf"))]
pub(super) struct ShelfFile {
    /// Version of this form: 1.
    pub(super) trialfit_shelf: u32,
    /// Name in links: small letters, digits and single hyphens. Never changes.
    pub(super) id: String,
    /// On screen.
    pub(super) name: String,
    /// Words to whoever opens it.
    #[cfg_attr(test, schemars(default))]
    pub(super) note: String,
    /// What parts are for; each takes one.
    #[cfg_attr(test, schemars(with = "Vec<SlotFile>"))]
    pub(super) slots: Vec<Box<RawValue>>,
    /// The parts.
    #[cfg_attr(test, schemars(with = "Vec<PartFile>"))]
    pub(super) parts: Vec<Box<RawValue>>,
}

impl Form for ShelfFile {
    fn take(&mut self, field: &str, raw: &RawValue) -> Result<(), Wrong> {
        match field {
            "trialfit-shelf" => self.trialfit_shelf = of(raw)?,
            "id" => self.id = of(raw)?,
            "name" => self.name = of(raw)?,
            "note" => self.note = of(raw)?,
            "slots" => self.slots = list(raw)?,
            "parts" => self.parts = list(raw)?,
            // What an editor takes the schema from.
            "$schema" => {}
            _ => return Err(Wrong::Unknown),
        }
        Ok(())
    }
}

/// A place on the car that takes one part.
#[derive(Debug, Default)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(deny_unknown_fields, rename_all = "kebab-case", rename = "Slot"))]
pub(super) struct SlotFile {
    /// Small letters, digits and single hyphens. Slots of several shelves with one id are one.
    pub(super) id: String,
    /// A noun: "Spigot bearing in the crankshaft".
    pub(super) name: String,
}

impl Form for SlotFile {
    fn take(&mut self, field: &str, raw: &RawValue) -> Result<(), Wrong> {
        match field {
            "id" => self.id = of(raw)?,
            "name" => self.name = of(raw)?,
            _ => return Err(Wrong::Unknown),
        }
        Ok(())
    }
}

/// One part.
#[derive(Debug, Default)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(deny_unknown_fields, rename_all = "kebab-case", rename = "Part"))]
pub(super) struct PartFile {
    /// Small letters, digits and single hyphens; no other part's and no slot's. Never changes.
    pub(super) id: String,
    /// As one would ask for it.
    pub(super) name: String,
    /// Id of its slot.
    pub(super) slot: String,
    /// Inputs by key, as links have them, and what it sets there: a number in the input's own unit, or as one types it.
    #[cfg_attr(test, schemars(default, with = "std::collections::BTreeMap<String, Figure>"))]
    pub(super) sets: Vec<(String, Option<Figure>)>,
    /// In kilograms, or with a unit.
    pub(super) mass: Option<Figure>,
    /// What it costs.
    #[cfg_attr(test, schemars(with = "Option<PriceFile>"))]
    pub(super) price: Option<Box<RawValue>>,
    /// Whether it is to be had: "in stock", "two weeks".
    #[cfg_attr(test, schemars(default))]
    pub(super) stock: String,
    /// Picture or page: https, or a path on the app's own host.
    #[cfg_attr(test, schemars(default))]
    pub(super) link: String,
    /// What it needs and excludes.
    #[cfg_attr(test, schemars(default, with = "Vec<RuleFile>"))]
    pub(super) rules: Vec<Box<RawValue>>,
    /// What comes off the engine with it.
    #[cfg_attr(test, schemars(default, with = "Vec<RemovedFile>"))]
    pub(super) removes: Vec<Box<RawValue>>,
    /// To be said wherever it is chosen.
    #[cfg_attr(test, schemars(default))]
    pub(super) cautions: Vec<String>,
}

impl Form for PartFile {
    fn take(&mut self, field: &str, raw: &RawValue) -> Result<(), Wrong> {
        match field {
            "id" => self.id = of(raw)?,
            "name" => self.name = of(raw)?,
            "slot" => self.slot = of(raw)?,
            "sets" => {
                let Fields(sets) = of(raw)?;
                self.sets = sets.into_iter().map(|(key, raw)| (key, figure(raw).ok())).collect();
            }
            "mass" => self.mass = given(raw).map(figure).transpose()?,
            "price" => self.price = given(raw).map(ToOwned::to_owned),
            "stock" => self.stock = of(raw)?,
            "link" => self.link = of(raw)?,
            "rules" => self.rules = list(raw)?,
            "removes" => self.removes = list(raw)?,
            "cautions" => self.cautions = of(raw)?,
            _ => return Err(Wrong::Unknown),
        }
        Ok(())
    }
}

/// What a part costs.
#[derive(Debug, Default)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(deny_unknown_fields, rename_all = "kebab-case", rename = "Price"))]
pub(super) struct PriceFile {
    /// 48.5 or "48.50".
    #[cfg_attr(test, schemars(with = "Figure"))]
    pub(super) amount: Option<Figure>,
    /// Three letters, as ISO 4217 has them.
    pub(super) currency: String,
}

impl Form for PriceFile {
    fn take(&mut self, field: &str, raw: &RawValue) -> Result<(), Wrong> {
        match field {
            "amount" => self.amount = Some(figure(raw)?),
            "currency" => self.currency = of(raw)?,
            _ => return Err(Wrong::Unknown),
        }
        Ok(())
    }
}

/// A rule of a part. What it names are ids of parts or slots; a slot stands for any part in it.
#[derive(Debug, Default)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(deny_unknown_fields, rename_all = "kebab-case", rename = "Rule"))]
pub(super) struct RuleFile {
    /// Each of these has to be fitted with it.
    #[cfg_attr(test, schemars(default))]
    pub(super) needs: Vec<String>,
    /// One of these has to be fitted with it.
    #[cfg_attr(test, schemars(default))]
    pub(super) needs_one_of: Vec<String>,
    /// None of these may be fitted with it.
    #[cfg_attr(test, schemars(default))]
    pub(super) excludes: Vec<String>,
    /// Where a slot of these parts is filled, one of these fills it.
    #[cfg_attr(test, schemars(default))]
    pub(super) only_with: Vec<String>,
    /// Why.
    #[cfg_attr(test, schemars(default))]
    pub(super) because: String,
}

impl Form for RuleFile {
    fn take(&mut self, field: &str, raw: &RawValue) -> Result<(), Wrong> {
        match field {
            "needs" => self.needs = of(raw)?,
            "needs-one-of" => self.needs_one_of = of(raw)?,
            "excludes" => self.excludes = of(raw)?,
            "only-with" => self.only_with = of(raw)?,
            "because" => self.because = of(raw)?,
            _ => return Err(Wrong::Unknown),
        }
        Ok(())
    }
}

/// Something that comes off the engine.
#[derive(Debug, Default)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(deny_unknown_fields, rename_all = "kebab-case", rename = "Removed"))]
pub(super) struct RemovedFile {
    /// What.
    pub(super) name: String,
    /// In kilograms, or with a unit.
    pub(super) mass: Option<Figure>,
}

impl Form for RemovedFile {
    fn take(&mut self, field: &str, raw: &RawValue) -> Result<(), Wrong> {
        match field {
            "name" => self.name = of(raw)?,
            "mass" => self.mass = given(raw).map(figure).transpose()?,
            _ => return Err(Wrong::Unknown),
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;
    use std::path::Path;

    fn schema() -> Value {
        let mut schema = schemars::schema_for!(ShelfFile).to_value();
        // For editors, which otherwise find fault with the line that led them here.
        schema["properties"]["$schema"] = serde_json::json!({ "type": "string" });
        schema
    }

    /// `TRIALFIT_WRITE_SCHEMA=1 cargo test -p trialfit-core schema` writes it anew.
    #[test]
    fn the_published_schema_is_that_of_the_types() {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../public/shelf.schema.json");
        let made = schema();
        if std::env::var_os("TRIALFIT_WRITE_SCHEMA").is_some() {
            let text = format!("{}\n", serde_json::to_string(&made).expect("a schema is JSON"));
            std::fs::write(&file, text).expect("the folder is there");
        }
        // Values, not texts: the order of fields hangs on what else is built.
        let published: Value = serde_json::from_str(&std::fs::read_to_string(file).expect("it is published")).expect("JSON");
        assert_eq!(published, made);
    }

    /// Every field of the schema is read, and no other.
    #[test]
    fn the_schema_names_the_fields_that_are_read() {
        fn check<T: Form>(of: &Value) {
            let raw = RawValue::from_string("null".into()).expect("JSON");
            let fields = of["properties"].as_object().expect("an object");
            assert!(fields.keys().all(|field| T::default().take(field, &raw) != Err(Wrong::Unknown)), "{:?}", fields.keys());
            assert_eq!(T::default().take("colour", &raw), Err(Wrong::Unknown));
            assert_eq!(of["additionalProperties"], false);
        }
        let schema = schema();
        let of = |name: &str| &schema["$defs"][name];
        check::<ShelfFile>(&schema);
        check::<SlotFile>(of("Slot"));
        check::<PartFile>(of("Part"));
        check::<PriceFile>(of("Price"));
        check::<RuleFile>(of("Rule"));
        check::<RemovedFile>(of("Removed"));
        assert_eq!(schema["$defs"].as_object().expect("types").len(), 6, "the five above and a figure");
    }
}
