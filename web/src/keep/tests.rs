use super::*;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use trialfit_core::calculators::car::IDLE;
use trialfit_core::quantity::{Value, per_minute};

/// A device several pages can share, with room for so many characters.
#[derive(Clone, Debug)]
struct Device {
    texts: Rc<RefCell<BTreeMap<String, String>>>,
    room: usize,
}

impl Device {
    fn new() -> Self {
        Self { texts: Rc::default(), room: usize::MAX }
    }

    fn with_room(&self, room: usize) -> Self {
        Self { room, ..self.clone() }
    }

    fn put(&self, key: &str, text: &str) {
        self.texts.borrow_mut().insert(key.into(), text.into());
    }

    fn has(&self, key: &str) -> Option<String> {
        self.texts.borrow().get(key).cloned()
    }
}

impl Store for Device {
    fn get(&self, key: &str) -> Result<Option<String>, Fault> {
        Ok(self.has(key))
    }

    fn set(&self, key: &str, text: &str) -> Result<(), Fault> {
        let others: usize = self.texts.borrow().iter().filter(|(other, _)| *other != key).map(|(_, text)| text.len()).sum();
        if others + text.len() > self.room {
            return Err(Fault::Full);
        }
        self.put(key, text);
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), Fault> {
        self.texts.borrow_mut().remove(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, Fault> {
        Ok(self.texts.borrow().keys().cloned().collect())
    }
}

fn idling_at(speed: f64) -> Build {
    let mut build = Build::default();
    build.set(IDLE.id.into(), per_minute(speed).to_cell()).unwrap();
    build
}

fn found(device: &Device) -> Build {
    Keeper::open(device.clone()).1.unwrap().unwrap().build
}

#[test]
fn a_first_visit_finds_nothing_and_writes_no_build() {
    let device = Device::new();
    assert!(Keeper::open(device.clone()).1.unwrap().is_none());
    assert_eq!(device.has("trialfit.build.1"), None);
}

#[test]
fn a_build_comes_back_after_a_reload() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    for speed in [900.0, 950.0] {
        assert_eq!(keeper.save(&idling_at(speed)), Ok(Saved::Done));
    }
    assert_eq!(found(&device), idling_at(950.0));
}

#[test]
fn a_tab_never_writes_over_what_another_wrote() {
    let device = Device::new();
    let (mut one, _) = Keeper::open(device.clone());
    one.save(&idling_at(900.0)).unwrap();
    let (mut other, _) = Keeper::open(device.clone());
    other.save(&idling_at(910.0)).unwrap();

    assert!(one.changed_elsewhere());
    assert_eq!(one.save(&idling_at(920.0)), Ok(Saved::Changed));
    assert_eq!(one.save_anew(&idling_at(920.0)), Ok(Saved::Done));
    assert_eq!(found(&device), idling_at(920.0), "the last one worked on is on the bench");
    assert_eq!(one.list().iter().map(|listed| listed.number).collect::<Vec<_>>(), [1, 2]);
    assert_eq!(other.take(1).unwrap().unwrap().build, idling_at(910.0));
}

#[test]
fn a_build_that_went_is_written_again() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    device.remove("trialfit.build.1").unwrap();
    assert_eq!(keeper.save(&idling_at(910.0)), Ok(Saved::Done));
    assert_eq!(found(&device), idling_at(910.0));
}

#[test]
fn damaged_text_is_put_aside_once_and_the_rest_is_used() {
    let device = Device::new();
    let damaged = "Trialfit build 1\nname: x\nrevision: 7\n1.1/car.idle=900/car.no-such-thing=3/end\n";
    device.put("trialfit.build.1", damaged);
    for _ in 0..2 {
        let found = Keeper::open(device.clone()).1.unwrap().unwrap();
        assert_eq!(found.build, idling_at(900.0));
        assert_eq!(found.problems.len(), 1, "{:?}", found.problems);
    }
    assert_eq!(device.has("trialfit.damaged.1").as_deref(), Some(damaged));
    assert_eq!(device.has("trialfit.damaged.2"), None);
}

#[test]
fn unreadable_text_is_put_aside_and_the_demo_opened() {
    let device = Device::new();
    device.put("trialfit.build.1", "\u{0}\u{0}garbage");
    let (mut keeper, found) = Keeper::open(device.clone());
    let found = found.unwrap().unwrap();
    assert_eq!((found.build, found.problems.len()), (Build::default(), 1));
    keeper.save(&idling_at(900.0)).unwrap();
    assert_eq!(device.has("trialfit.damaged.1").as_deref(), Some("\u{0}\u{0}garbage"));
}

#[test]
fn damaged_text_stays_in_place_where_there_is_no_room_for_a_copy() {
    let device = Device::new();
    device.put("trialfit.build.1", &"garbage".repeat(100));
    let (mut keeper, _) = Keeper::open(device.with_room(1000));
    assert_eq!(keeper.save(&idling_at(900.0)), Ok(Saved::Done));
    assert_eq!(device.has("trialfit.build.1"), Some("garbage".repeat(100)));
    assert_eq!(found(&device), idling_at(900.0));
}

#[test]
fn a_full_device_says_so_and_loses_nothing() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    let mut keeper = Keeper::open(device.with_room(10)).0;
    assert_eq!(keeper.save(&idling_at(910.0)), Err(Fault::Full));
    assert_eq!(keeper.save_anew(&idling_at(910.0)), Err(Fault::Full));
    assert_eq!(keeper.number(), 1);
    assert_eq!(found(&device), idling_at(900.0));
}

#[test]
fn the_build_on_the_bench_is_not_thrown_away() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    keeper.save_anew(&idling_at(910.0)).unwrap();
    keeper.throw_away(2).unwrap();
    keeper.throw_away(1).unwrap();
    assert_eq!(keeper.list().len(), 1);
    assert_eq!(found(&device), idling_at(910.0));
}
