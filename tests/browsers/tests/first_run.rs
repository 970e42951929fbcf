//! A first visit: the demo answers, and so does a car of one's own once its numbers are typed.

use crate::desk;
use crate::page::{screens, with_app};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use thirtyfour::{By, Key};
use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::ALL;
use trialfit_core::layout::Layout;
use trialfit_core::show::System;
use trialfit_core::spec::{Kind, Place, Role};

#[tokio::test]
async fn the_demo_opens_says_that_it_is_one_and_answers() -> Result<()> {
    with_app("", async |session, _| {
        ensure!(session.words("demo").await?.contains("Demo car, not yours"));
        for calculator in screens() {
            session.go(calculator).await?;
            let said = session.answer().await?;
            ensure!(said == desk::answer("1.1/end", calculator)?, "{calculator}: {said}");
            ensure!(!said.contains("Unknown") && said.contains(|letter: char| letter.is_ascii_digit()), "{calculator}: {said}");
            // Seen, with its verdict in a word and a mark.
            session.until("document.querySelector('#answer').getBoundingClientRect().bottom < innerHeight").await?;
            session.until("!!document.querySelector('.answer .mark[data-verdict]')").await?;
            // What can hurt someone is said whatever the figures are.
            let it = ALL.iter().find(|it| it.key == calculator).context("no such calculator")?;
            for caution in it.cautions {
                ensure!(session.words("card").await?.contains(caution), "{calculator} does not say: {caution}");
            }
            let verdict = session.string("document.querySelector('.answer .mark').dataset.verdict").await?;
            let seen = session.string("document.querySelector('.answer .sentence').textContent").await?;
            ensure!(seen.to_lowercase().contains(&verdict), "{calculator}: {seen}");
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_car_of_ones_own_is_typed_and_answers_come() -> Result<()> {
    with_app("", async |session, _| {
        session.press("clear-demo").await?;
        session.until("!document.getElementById('demo')").await?;
        // Cleared, it claims to know nothing of the car.
        let mut own = Build::cleared(ALL);
        session.go("front-drive").await?;
        let empty = session.answer().await?;
        ensure!(empty.starts_with("Unknown") && empty == desk::spoken(&own, "front-drive", System::Metric)?, "{empty}");
        // Each of the first numbers it wants is a tap away, and no slider stands anywhere.
        session.says("main", "Undo brings the demo car back.").await?;
        session.until("document.querySelectorAll('.needs a').length === 4").await?;
        session.until("document.getElementById('choice-slider').classList.contains('unset')").await?;
        session.value("void document.querySelector('.needs a').click()").await?;
        session.until("document.activeElement.id === 'car.idle' && document.activeElement.value === ''").await?;
        let empty = session.go("clutch").await.map(|()| session.answer())?.await?;
        ensure!(empty == desk::spoken(&own, "clutch", System::Metric)?, "{empty}");

        // What is past a limit already hides nothing that is still missing.
        for (key, number) in [
            ("clutch.clamp-load", 3000.0),
            ("clutch.facing-outer", 228.0),
            ("clutch.facing-inner", 150.0),
            ("clutch.torque-to-hold", 240.0),
        ] {
            let place = own.layout().place_by_key(key).context(key)?;
            own.set(place, own.layout().spec(place.id).to_cell(number)).map_err(|why| anyhow::anyhow!("{key}: {why:?}"))?;
            session.enter(key, &number.to_string()).await?;
        }
        session.until("document.querySelector('.answer').dataset.verdict === 'beyond'").await?;
        session.says("main", "Still missing:").await?;
        ensure!(session.answer().await? == desk::spoken(&own, "clutch", System::Metric)?);

        let layout = own.layout().clone();
        let missing = layout.places(Role::Input).filter(|&place| own.origin(place) == Origin::Missing && asked(&layout, place));
        for place in missing.collect::<Vec<_>>() {
            // What even the demo leaves open, nobody needs to give.
            let Some(demo) = Build::default().own_value(place) else { continue };
            let key = layout.key(place);
            session.go(&key).await?;
            let spec = layout.spec(place.id);
            match spec.kind {
                Kind::Quantity { unit, .. } => {
                    // A little larger than the demo's, so that it is another car.
                    let number = if spec.whole { demo + 1.0 } else { (unit.from_si(demo) * 1010.0).round() / 1000.0 };
                    let text = number.to_string();
                    session.driver.active_element().await?.send_keys(Key::Control + "a").await?;
                    session.driver.active_element().await?.send_keys(&text).await?;
                    own.set(place, spec.to_cell(number)).map_err(|why| anyhow::anyhow!("{key}: {why:?}"))?;
                }
                Kind::Choice(choices) => choose(session, &key, choices[0].key, &mut own, place).await?,
                Kind::Text(_) => {}
            }
            session.nothing_wrong().await.context(key)?;
        }
        for calculator in screens() {
            session.go(calculator).await?;
            let said = session.answer().await?;
            ensure!(!said.contains("Unknown") && said == desk::spoken(&own, calculator, System::Metric)?, "{calculator}: {said}");
            let kept = desk::kept(session.kept_text("trialfit.build.1").await?)?;
            ensure!(said == desk::spoken(&kept, calculator, System::Metric)?, "what is kept answers otherwise");
        }
        Ok(())
    })
    .await
}

/// Whether it stands on the screen of a calculator tried here.
fn asked(layout: &Layout, place: Place) -> bool {
    screens().any(|calculator| layout.key(place).starts_with(&format!("{calculator}."))) && layout.spec(place.id).of_the_car
}

async fn choose(session: &Session, key: &str, choice: &str, own: &mut Build, place: Place) -> Result<()> {
    let option = session.driver.find(By::Css(format!("[id='{key}'] [data-choice='{choice}']"))).await?;
    option.click().await?;
    own.set(place, 0.0).map_err(|why| anyhow::anyhow!("{key}: {why:?}"))
}
