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

    fn bench(&self) -> Option<u32> {
        self.has("bench")?.parse().ok()
    }

    fn set_bench(&self, number: u32) {
        self.put("bench", &number.to_string());
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

    assert_eq!(one.save(&idling_at(920.0)), Ok(Saved::Changed));
    assert_eq!(one.save_anew(&idling_at(920.0)), Ok(Saved::Done));
    assert_eq!(found(&device), idling_at(920.0), "the last one worked on is on the bench");
    assert_eq!(one.list().iter().map(|listed| listed.number).collect::<Vec<_>>(), [1, 2]);
    assert_eq!(other.take(1).unwrap().unwrap().build, idling_at(910.0));
}

#[test]
fn a_tab_takes_over_what_another_wrote_where_it_can_read_it_whole() {
    let device = Device::new();
    let (mut one, _) = Keeper::open(device.clone());
    one.save(&idling_at(900.0)).unwrap();
    assert_eq!(one.adopt(), None, "nobody wrote");
    let (mut other, _) = Keeper::open(device.clone());
    other.save(&idling_at(910.0)).unwrap();
    assert_eq!(one.adopt(), Some(idling_at(910.0)));
    assert_eq!(one.save(&idling_at(920.0)), Ok(Saved::Done));
    // A tab of a later version knows an input that this one does not.
    let later = "Trialfit build 1\nname: x\nrevision: 9\n1.1/car.idle=930/car.of-a-later-version=3/end\n";
    for _ in 0..3 {
        device.put("trialfit.build.1", later);
        assert_eq!(one.adopt(), None);
    }
    assert_eq!(one.damaged(), [""; 0], "nothing is wrong with it");
    assert_eq!(one.save(&idling_at(940.0)), Ok(Saved::Changed));
    assert_eq!(one.save_anew(&idling_at(940.0)), Ok(Saved::Done));
    assert_eq!(device.has("trialfit.build.1").as_deref(), Some(later));
}

#[test]
fn what_is_ticked_belongs_to_its_car_and_goes_with_it() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.keep_done("a\t1\n").unwrap();
    keeper.save(&idling_at(900.0)).unwrap();
    assert_eq!(keeper.number(), 1, "ticked before there was anything to keep");
    keeper.save_anew(&idling_at(910.0)).unwrap();
    assert_eq!(keeper.done(), "");
    keeper.throw_away(1).unwrap();
    keeper.put_back(1).unwrap();
    keeper.take(1).unwrap();
    assert_eq!(keeper.done(), "a\t1\n");
    keeper.take(2).unwrap();
    keeper.throw_away(1).unwrap();
    for _ in 0..=MOST_THROWN {
        let number = keeper.file(idling_at(920.0)).unwrap();
        keeper.throw_away(number).unwrap();
    }
    assert_eq!(device.has("trialfit.done.1"), None);
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

#[test]
fn a_car_is_filed_copied_and_renamed_beside_the_one_on_the_bench() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    assert_eq!(keeper.file(idling_at(910.0)), Ok(2));
    keeper.rename(2, "Green roadster").unwrap();
    keeper.rename(1, "on the bench, which the page itself renames").unwrap();
    assert_eq!(keeper.number(), 1);
    assert_eq!(keeper.list().iter().map(|it| (it.number, it.name.as_str())).collect::<Vec<_>>(), [(1, ""), (2, "Green roadster")]);
    assert_eq!(keeper.read(2).map(|build| build.own_value(IDLE.id.into())), Some(idling_at(910.0).own_value(IDLE.id.into())));
    // What was read only in part is not written over by a name.
    let damaged = "Trialfit build 1\nname: x\nrevision: 7\n1.1/car.idle=900/car.no-such-thing=3/end\n";
    device.put("trialfit.build.3", damaged);
    keeper.rename(3, "y").unwrap();
    assert_eq!((device.has("trialfit.build.3").as_deref(), keeper.read(3)), (Some(damaged), None));
}

#[test]
fn a_car_comes_beside_one_that_is_not_kept_yet() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    assert_eq!((keeper.import(&written(&idling_at(910.0), 3)).count, keeper.file(idling_at(920.0))), (1, Ok(3)));
    assert_eq!(keeper.save(&idling_at(900.0)), Ok(Saved::Done), "nobody else had its number");
    assert_eq!([1, 2, 3].map(|number| keeper.read(number)), [900.0, 910.0, 920.0].map(|speed| Some(idling_at(speed))));
    // Nor does what is put back take it.
    device.put("trialfit.thrown.1", &written(&idling_at(940.0), 1));
    for number in 1..=3 {
        device.remove(&format!("trialfit.build.{number}")).unwrap();
    }
    let (mut keeper, found) = Keeper::open(device.clone());
    assert!(found.unwrap().is_none());
    keeper.put_back(1).unwrap();
    assert_eq!(keeper.save(&idling_at(900.0)), Ok(Saved::Done));
    assert_eq!([1, 2].map(|number| keeper.read(number)), [900.0, 940.0].map(|speed| Some(idling_at(speed))));
}

#[test]
fn long_names_are_told_apart_within_their_length() {
    let (keeper, _) = Keeper::open(Device::new());
    let mut build = idling_at(900.0);
    build.set_text(car::NAME.id.into(), &"é".repeat(stored::NAME)).unwrap();
    for _ in 0..3 {
        keeper.file(build.clone()).unwrap();
    }
    let names: Vec<String> = keeper.list().into_iter().map(|it| it.name).collect();
    let cut = "é".repeat(stored::NAME - 5);
    assert_eq!(names, ["é".repeat(stored::NAME), format!("{cut} 2"), format!("{cut} 3")]);
}

#[test]
fn what_is_thrown_away_can_be_put_back_and_its_number_is_not_given_again() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    keeper.file(idling_at(910.0)).unwrap();
    let before = device.has("trialfit.build.2");
    keeper.throw_away(2).unwrap();
    assert_eq!((keeper.list().len(), keeper.thrown().len()), (1, 1));
    assert_eq!(keeper.file(idling_at(920.0)), Ok(3));
    keeper.put_back(2).unwrap();
    assert_eq!((device.has("trialfit.build.2"), keeper.thrown().len()), (before, 0));
    // Another tab kept it again meanwhile: both stay.
    keeper.throw_away(2).unwrap();
    device.put("trialfit.build.2", "Trialfit build 1\nname: \nrevision: 9\n1.1/end\n");
    keeper.put_back(2).unwrap();
    assert_eq!(keeper.read(4), Some(idling_at(910.0)));
    // Only the last few are kept.
    for _ in 0..2 * MOST_THROWN {
        let number = keeper.file(idling_at(930.0)).unwrap();
        keeper.throw_away(number).unwrap();
    }
    assert_eq!(keeper.thrown().len(), MOST_THROWN);
}

#[test]
fn what_can_be_missed_gives_way_to_a_car() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    keeper.keep_steps(&"x".repeat(400));
    keeper.file(idling_at(910.0)).unwrap();
    keeper.throw_away(2).unwrap();
    let mut keeper = Keeper::open(device.with_room(560)).0;
    assert_eq!(keeper.save(&idling_at(901.0)), Ok(Saved::Done), "where there is room nothing goes");
    assert_eq!((keeper.steps().is_some(), keeper.thrown().len()), (true, 1));
    keeper.file(idling_at(920.0)).unwrap();
    assert_eq!((keeper.steps(), keeper.thrown().len()), (None, 1), "steps go first");
    assert_eq!(found(&device), idling_at(901.0));
}

#[test]
fn steps_belong_to_their_car_as_it_was_kept() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    assert_eq!(keeper.steps(), None);
    keeper.save(&idling_at(900.0)).unwrap();
    keeper.keep_steps("steps");
    let steps = |device: &Device| Keeper::open(device.clone()).0.steps();
    assert_eq!(steps(&device), Some(Steps { text: "steps".into(), whole: true }));
    keeper.save(&idling_at(910.0)).unwrap();
    assert_eq!(steps(&device), Some(Steps { text: "steps".into(), whole: false }), "kept before the last change");
    // Another car under the same number.
    device.put("trialfit.build.1", "Trialfit build 1\nname: \nrevision: 0\n1.1/end\n");
    assert_eq!(steps(&device), None);
    device.put("trialfit.steps.1", "no number");
    assert_eq!(steps(&device), None);
}

#[test]
fn a_file_of_cars_comes_back_beside_what_is_there() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    let own = device.has("trialfit.build.1");
    let file = [
        &written(&idling_at(910.0), 3),
        "Trialfit build 1\nname: Cut\nrevision: 2\n1.1/car.id",
        "\nTrialfit build 9\nname: Later\nrevision: 1\nwheels: 3\n1.1/car.idle=930/end\n",
        "Trialfit build 1\nname: Empty\nrevision: 2\n",
        &written(&idling_at(940.0), 1),
    ];
    let imported = keeper.import(&file.concat().replace('\n', "\r\n"));
    assert_eq!((imported.count, imported.stopped, imported.left_out), (4, None, 0));
    let told: Vec<&str> = imported.problems.iter().map(|(car, _)| car.as_str()).collect();
    assert_eq!(told, ["“Cut”", "“Later”", "“Later”", "4"], "{:?}", imported.problems);
    let builds: Vec<_> = (2..=5).map(|number| keeper.read(number).unwrap()).collect();
    let named = |mut build: Build, name: &str| {
        build.set_text(car::NAME.id.into(), name).unwrap();
        build
    };
    assert_eq!(builds, [idling_at(910.0), named(Build::default(), "Cut"), named(idling_at(930.0), "Later"), idling_at(940.0)]);
    assert_eq!((device.has("trialfit.build.1"), keeper.number()), (own, 1));

    // What is no file of cars adds none, and says so; nor does one that finds no room.
    for text in ["", "\u{0}\u{0}PK\u{3}", "{\"trialfit\": [1, 2]}", "Trialfit build", &"Trialfit build 1\n".repeat(2000)] {
        let imported = keeper.import(text);
        assert_eq!(imported.count, 0, "{text:?}");
        assert!(text.is_empty() || !imported.problems.is_empty(), "{text:?}");
    }
    let imported = Keeper::open(device.with_room(10)).0.import(&written(&idling_at(910.0), 3));
    assert_eq!((imported.count, imported.stopped), (0, Some(Fault::Full)));
    // A link alone will do.
    assert_eq!(keeper.import("https://example.org/#1.1/car.idle=950/end").count, 1);
}

#[test]
fn a_car_that_went_elsewhere_is_told_and_another_comes_up() {
    let device = Device::new();
    let (mut one, _) = Keeper::open(device.clone());
    one.save(&idling_at(900.0)).unwrap();
    let (mut other, _) = Keeper::open(device.clone());
    other.save_anew(&idling_at(910.0)).unwrap();
    assert!(!one.is_gone());
    other.throw_away(1).unwrap();
    assert!(one.is_gone());
    assert!(one.take(1).unwrap().is_none());
    device.set_bench(1);
    assert_eq!(found(&device), idling_at(910.0), "not the demo");
}

#[test]
fn what_could_not_be_kept_is_not_replaced_by_another_tabs() {
    let device = Device::new();
    let (mut one, _) = Keeper::open(device.clone());
    one.save(&idling_at(900.0)).unwrap();
    let mut full = Keeper::open(device.with_room(10)).0;
    assert_eq!(full.save(&idling_at(910.0)), Err(Fault::Full));
    one.save(&idling_at(920.0)).unwrap();
    assert!(full.adopt().is_none());
    assert_eq!(full.save(&idling_at(911.0)), Ok(Saved::Changed), "its own goes under another number once there is room");
}

#[test]
fn what_is_held_belongs_to_its_car() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    keeper.keep_held(Some("one")).unwrap();
    keeper.save_anew(&idling_at(910.0)).unwrap();
    assert_eq!(keeper.held(), None, "none for a new car");
    keeper.keep_held(Some("two")).unwrap();
    keeper.take(1).unwrap();
    assert_eq!(keeper.held().as_deref(), Some("one"));
    keeper.keep_held(None).unwrap();
    assert_eq!(keeper.held(), None);
    // Neither a copy nor one from a file has any.
    for number in [keeper.file(idling_at(910.0)).unwrap(), 4] {
        keeper.import(&written(&idling_at(920.0), 1));
        keeper.take(number).unwrap().unwrap();
        assert_eq!(keeper.held(), None);
    }
    keeper.take(2).unwrap();
    assert_eq!(keeper.held().as_deref(), Some("two"));
}

#[test]
fn what_another_tab_holds_is_told_from_what_is_cleared_away_or_refused() {
    let device = Device::new();
    let (mut one, _) = Keeper::open(device.clone());
    one.save(&idling_at(900.0)).unwrap();
    let (mut other, _) = Keeper::open(device.clone());
    assert_eq!(other.held(), None);
    one.keep_held(Some("one")).unwrap();
    assert!(!one.held_elsewhere(None) && other.held_elsewhere(None) && other.held_elsewhere(Some("trialfit.held.1")));
    assert!(!other.held_elsewhere(Some("trialfit.build.1")) && !other.held_elsewhere(Some("trialfit.held.2")));
    assert_eq!(other.held().as_deref(), Some("one"));
    assert!(!other.held_elsewhere(None), "heard of");
    // Let go of there, it is here too; cleared away with all else it stays on the screen.
    one.keep_held(None).unwrap();
    assert!(other.held_elsewhere(Some("trialfit.held.1")) && !other.held_elsewhere(None));
    // What could not be kept stands on the screen, whatever was kept before.
    one.keep_held(Some("two")).unwrap();
    let mut full = Keeper::open(device.with_room(2)).0;
    assert_eq!(full.held().as_deref(), Some("two"));
    assert_eq!(full.keep_held(Some("three and more")), Err(Fault::Full));
    assert!(!full.held_elsewhere(None));
}

#[test]
fn what_a_version_before_held_is_held_for_the_car_on_the_bench() {
    for bench in [1, 2] {
        let device = Device::new();
        let (mut keeper, _) = Keeper::open(device.clone());
        keeper.save(&idling_at(900.0)).unwrap();
        keeper.save_anew(&idling_at(910.0)).unwrap();
        device.set_bench(bench);
        device.put("trialfit.held", "1.1/end");
        for _ in 0..2 {
            assert_eq!(Keeper::open(device.clone()).0.held().as_deref(), Some("1.1/end"));
        }
        assert_eq!(device.has("trialfit.held"), None);
        keeper.take(3 - bench).unwrap();
        assert_eq!(keeper.held(), None);
    }
}

#[test]
fn what_is_held_goes_with_a_car_thrown_away_and_comes_back_with_it() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    keeper.save_anew(&idling_at(910.0)).unwrap();
    keeper.keep_held(Some("two")).unwrap();
    keeper.take(1).unwrap();
    keeper.keep_held(Some("one")).unwrap();
    keeper.throw_away(2).unwrap();
    keeper.put_back(2).unwrap();
    keeper.take(2).unwrap().unwrap();
    assert_eq!(keeper.held().as_deref(), Some("two"));
    keeper.take(1).unwrap();
    // Gone for good once it can no longer be put back: nobody else finds it.
    keeper.throw_away(2).unwrap();
    for _ in 0..MOST_THROWN {
        keeper.throw_away(keeper.file(idling_at(920.0)).unwrap()).unwrap();
    }
    assert_eq!((device.has("trialfit.thrown.2"), device.has("trialfit.held.2")), (None, None));
    assert_eq!(keeper.held().as_deref(), Some("one"));
    // One that another tab kept again meanwhile still holds its own.
    let number = keeper.file(idling_at(930.0)).unwrap();
    let held = format!("trialfit.held.{number}");
    device.put(&held, "again");
    let text = keeper.text_of(number).unwrap();
    keeper.throw_away(number).unwrap();
    device.put(&format!("trialfit.build.{number}"), &text);
    for _ in 0..MOST_THROWN {
        keeper.throw_away(keeper.file(idling_at(920.0)).unwrap()).unwrap();
    }
    assert_eq!((device.has(&format!("trialfit.thrown.{number}")), device.has(&held).as_deref()), (None, Some("again")));
}

#[test]
fn room_is_made_of_what_a_car_thrown_away_held_and_of_no_other() {
    let device = Device::new();
    let (mut keeper, _) = Keeper::open(device.clone());
    keeper.save(&idling_at(900.0)).unwrap();
    keeper.file(idling_at(910.0)).unwrap();
    let long = "x".repeat(400);
    device.put("trialfit.held.2", &long);
    keeper.throw_away(2).unwrap();
    keeper.file(idling_at(920.0)).unwrap();
    device.put("trialfit.held.3", "three");
    let mut keeper = Keeper::open(device.with_room(560)).0;
    keeper.keep_held(Some(&long)).unwrap();
    assert_eq!((keeper.held(), device.has("trialfit.held.2"), keeper.thrown()), (Some(long), None, Vec::new()));
    assert_eq!(device.has("trialfit.held.3").as_deref(), Some("three"));
    assert_eq!(keeper.keep_held(Some(&"y".repeat(600))), Err(Fault::Full));
    assert!(keeper.held().is_some_and(|held| held.starts_with('x')), "what was held is lost");
    assert_eq!(keeper.file(idling_at(930.0)), Err(Fault::Full));
}
