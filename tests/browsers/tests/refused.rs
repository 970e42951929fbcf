//! What cannot be taken: said at its field, the last good value stays, and so does everything else.

use crate::desk;
use crate::page::{quoted, screens, with_app};
use anyhow::{Context, Result, ensure};
use serde_json::json;

const PULLEY: &str = "front-drive.alternator-pulley";

/// No answer is a number gone wrong, and no words were taken for markup.
const SANE: &str = "![...document.querySelectorAll('#answer, #answer-spoken, #results, #charts, .drawing')].some((it) => \
    /\\bNaN\\b|\\binf(inity)?\\b|undefined|∞/i.test(it.textContent)) && !document.querySelector('main b b, main script, main img')";

#[tokio::test]
async fn what_cannot_be_taken_is_said_at_its_field() -> Result<()> {
    with_app("#front-drive", async |session, _| {
        session.type_in(PULLEY, "58").await?;
        let good = session.answer().await?;
        ensure!(good == desk::answer(&format!("1.1/{PULLEY}=58/end"), "front-drive")?, "{good}");
        let kept = desk::kept(session.kept_text("trialfit.build.1").await?)?;
        let others = "JSON.stringify([...document.querySelectorAll('main input, main select')].filter((it) => \
            it.id !== 'choice' && it.id !== 'front-drive.alternator-pulley').map((it) => [it.id, it.value, it.checked]))";
        let beside = session.string(others).await?;
        for text in ["as it was", "NaN", "-60", "0", "1e999", "99999999999", "60/0", "∞", "58 kg", "5-3/4", "1.2.3,4,5", "", "<b>58</b>"]
        {
            session.enter(PULLEY, text).await?;
            let input = format!("document.getElementById('{PULLEY}')");
            session.until(&format!("{input}.ariaInvalid === 'true'")).await.with_context(|| format!("“{text}” was taken"))?;
            let described = session.string(&format!("{input}.getAttribute('aria-describedby')")).await?;
            ensure!(described == format!("{PULLEY}.note"));
            let note = session.note(PULLEY).await?;
            ensure!(note.contains("58 mm stays in force") && note.len() > 30, "{text}: {note}");
            ensure!(session.answer().await? == good, "{text} changed the answer");
            session.until("[...document.querySelectorAll('.answer .problem')].some((it) => /58\\smm/.test(it.textContent))").await?;
            ensure!(desk::kept(session.kept_text("trialfit.build.1").await?)? == kept, "{text} was kept");
            ensure!(session.string(others).await? == beside, "{text} changed another field");
            session.until(SANE).await.with_context(|| format!("after {text}"))?;
            // Leaving the field neither loses what was typed nor takes it.
            session.leave().await?;
            ensure!(session.field(PULLEY).await? == text && session.note(PULLEY).await? == note, "{text} was lost on leaving");
        }
        // On another screen it says of which; of a row, of which row.
        session.go("wiring.circuits.1.length").await?;
        session.type_in("wiring.circuits.1.length", "far").await?;
        for there in ["Front drive: Uses", "circuits, Fuel pump: wire out"] {
            session.until(&format!("document.querySelector('.answer').textContent.replace(/\\s/g, ' ').includes('{there}')")).await?;
        }
        session.type_in("wiring.circuits.1.length", "3").await?;
        session.go("front-drive").await?;
        // Mended, nothing is left of it.
        session.type_in(PULLEY, "58").await?;
        session.until("!document.querySelector('[aria-invalid=true], .answer .problem')").await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn geometry_that_cannot_be_is_an_answer_too() -> Result<()> {
    with_app("#front-drive", async |session, _| {
        // Each can stand by itself, and no belt runs like that.
        let odd = [
            "front-drive.pulleys.2.x=0/front-drive.pulleys.2.y=0",
            "front-drive.pulleys.2.x=2000/front-drive.pulleys.3.x=-2000",
            "front-drive.crank-pulley=500/front-drive.pump-pulley=500",
            "clutch.facing-inner=380/clutch.facing-outer=100",
            "clutch.spring-inner=390/clutch.spring-outer=80/clutch.cover-figures=spring",
            "car.idle=2500/car.redline=1000/car.cruise=12000",
        ];
        for items in odd {
            let text = format!("1.1/{items}/end");
            session.value(&format!("void (location.hash = {})", quoted(&text))).await?;
            session.until("!!document.getElementById('visit')").await?;
            for calculator in screens() {
                session.press(&format!("to-{calculator}")).await?;
                let expected = desk::answer(&text, calculator)?;
                session.says("answer-spoken", &expected).await.with_context(|| text.clone())?;
                session.until(SANE).await.with_context(|| format!("{calculator} of {text}"))?;
                session.nothing_wrong().await?;
            }
        }
        session.press("keep-mine").await?;
        session.go("front-drive").await?;
        session.says("answer-spoken", &desk::answer("1.1/end", "front-drive")?).await?;
        ensure!(session.value("document.querySelectorAll('svg [d*=NaN], svg [x=NaN]').length").await? == json!(0));
        Ok(())
    })
    .await
}
