//! The car as a whole: every calculator with its worst figure, what feeds what, and what a change turned.

use crate::desk;
use crate::page::{WIDE, with_app, with_app_at};
use anyhow::{Context, Result, ensure};
use serde_json::json;
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::changed::changes;
use trialfit_core::overview;
use trialfit_core::sentence::Sentence;
use trialfit_core::show::{self, System};
use trialfit_tests::evaluated;

/// A sentence as it stands on the page, spaces that hold words together as plain ones, without those that set groups apart.
fn written(sentence: &Sentence) -> String {
    plain(&show::sentence(sentence, System::Metric))
}

fn plain(text: &str) -> String {
    text.replace('\u{202F}', "").split_whitespace().collect::<Vec<_>>().join(" ")
}

#[tokio::test]
async fn every_calculator_stands_beside_the_others() -> Result<()> {
    with_app("#overview", async |session, _| {
        session.until("document.querySelector('.screen').dataset.calculator === 'overview'").await?;
        let build = Build::default();
        for it in overview::calculators(&build, &evaluated(&build)) {
            let key = ALL[usize::from(it.calculator)].key;
            let item = format!("document.querySelector('.side-by-side [data-calculator={key}]')");
            ensure!(session.string(&format!("{item}.dataset.verdict")).await? == it.line.verdict.word(), "{key}");
            let said = plain(&session.string(&format!("{item}.lastElementChild.textContent")).await?);
            ensure!(said == written(&it.line), "{key}: {said}");
        }
        session.until(&format!("document.querySelectorAll('.side-by-side > li').length === {}", ALL.len())).await?;
        // The five links of the job are among what feeds what.
        let feeds = plain(&session.words("feeds").await?);
        for link in ["Clutch: Peak torque", "Flywheel: Torque at the flywheel", "Bonnet line: "] {
            ensure!(feeds.contains(link), "{link}: {feeds}");
        }
        // A name leads to its calculator.
        session.value("document.querySelector('.side-by-side [data-calculator=wiring] a').click()").await?;
        session.until("document.querySelector('.screen').dataset.calculator === 'wiring'").await
    })
    .await
}

#[tokio::test]
async fn a_change_tells_what_it_turned_and_is_taken_back_at_once() -> Result<()> {
    with_app("#front-drive", async |session, _| {
        session.kept().await?;
        let before = Build::default();
        let after = desk::opened("1.1/front-drive.crank-pulley=170/end")?;
        let told = changes((&before, &evaluated(&before)), (&after, &evaluated(&after))).verdicts;
        ensure!(told.len() > 5, "the example turns too little: {}", told.len());

        session.type_in("front-drive.crank-pulley", "170").await?;
        session.go("overview").await?;
        session.until(&format!("document.querySelectorAll('.turned li').length === {}", told.len())).await?;
        for it in &told {
            let key = after.layout().key(it.place);
            let line = format!("document.querySelector('.turned [data-key=\"{key}\"]')");
            session.until(&format!("!!{line}")).await?;
            let said = plain(&session.string(&format!("{line}.textContent")).await?);
            ensure!(said.ends_with(&written(&it.line)), "{said}, not {}", written(&it.line));
        }

        session.press("take-back").await?;
        session.until("!document.querySelector('.turned')").await?;
        session.go("front-drive").await?;
        let said = session.answer().await?;
        ensure!(said == desk::answer("1.1/end", "front-drive")?, "{said}");
        ensure!(session.value("document.querySelector('.turned')").await?.is_null());
        // What is heard names it too, once the hands are quiet.
        session.type_in("front-drive.crank-pulley", "170").await?;
        session.until("document.getElementById('live').textContent.includes('within → beyond')").await
    })
    .await
}

#[tokio::test]
async fn a_link_can_open_at_the_whole() -> Result<()> {
    with_app("#1.1/clutch.slave-bore=20/show=overview/end", async |session, _| {
        session.until("document.querySelector('.screen').dataset.calculator === 'overview'").await?;
        session.until("!!document.getElementById('visit')").await?;
        ensure!(session.value("document.getElementById('visit-problems')").await?.is_null());
        session.press("open-send").await?;
        let sent = session.field("send-link").await?;
        ensure!(sent.contains("show=overview"), "{sent}");
        // Nothing of a calculator, but the section of parts.
        let places = session.value("[...document.querySelectorAll('#send-show option')].map((it) => it.value)").await?;
        ensure!(places == json!(["", "parts"]), "{places}");
        session.press("close-send").await.context("closing")
    })
    .await
}

/// Three held and one on trial: a column for each on a wide screen; after a reload too, and in a link.
#[tokio::test]
async fn up_to_four_stand_side_by_side_where_there_is_room() -> Result<()> {
    with_app_at(WIDE, "#overview", async |session, _| {
        session.press("hold").await?;
        for bore in ["20", "24", "26"] {
            session.go("clutch.slave-bore").await?;
            session.type_in("clutch.slave-bore", bore).await?;
            session.go("overview").await?;
            if bore != "26" {
                session.press("hold-another").await?;
            }
        }
        let row = |label: &str| {
            format!(
                "[...([...document.querySelectorAll('#beside .if-wide tr')].find((row) => row.firstChild.textContent === '{label}')?.children ?? [])].slice(1).map((cell) => parseFloat(cell.textContent)).join(' ')"
            )
        };
        session.until(&format!("{} === '22.225 20 24 26'", row("Slave bore"))).await?;
        // A bigger slave bore is lighter (hydraulic ratio).
        let forces = session.string(&row("Pedal force at its peak")).await?;
        let forces: Vec<f64> = forces.split(' ').map(str::parse).collect::<Result<_, _>>()?;
        ensure!(forces.len() == 4 && forces[1] > forces[0] && forces[0] > forces[2] && forces[2] > forces[3], "{forces:?}");
        ensure!(session.value("document.getElementById('hold-another')").await?.is_null(), "room for a fifth");
        let fits = "((it) => it.scrollWidth <= it.clientWidth && it.scrollHeight <= it.clientHeight)(document.querySelector('#beside .if-wide'))";
        session.until(fits).await.context("out of sight")?;
        session.reload().await?;
        session.until(&format!("{} === '22.225 20 24 26'", row("Slave bore"))).await?;
        session.press("open-send").await?;
        session.until("/\\/b2\\/.*\\/b3\\/.*\\/b4\\//.test(document.getElementById('send-link').value)").await?;
        session.press("close-send").await?;
        session.press("let-go").await?;
        session.until("!document.querySelector('#beside table')").await
    })
    .await
}

#[tokio::test]
async fn what_is_fitted_stays_beside_what_is_on_trial() -> Result<()> {
    with_app("#overview", async |session, _| {
        session.kept().await?;
        session.press("hold").await?;
        session.until("document.getElementById('beside').textContent.includes('Nothing differs')").await?;
        session.go("clutch").await?;
        session.type_in("clutch.slave-bore", "23.8125").await?;
        session.kept().await?;
        // Through loading again.
        session.reload().await?;
        session.go("overview").await?;
        let row = "document.querySelector('#beside [data-key=\"clutch.pedal-force\"]')";
        session.until(&format!("!!{row}")).await?;
        let before = Build::default();
        let after = desk::opened("1.1/clutch.slave-bore=23.8125/end")?;
        let said = plain(&session.string(&format!("{row}.textContent")).await?);
        for build in [&before, &after] {
            let place = build.layout().place_by_key("clutch.pedal-force").context("no such key")?;
            let spec = build.layout().spec(place.id);
            let value = evaluated(build).value(place).map_err(|_| anyhow::anyhow!("unknown"))?;
            let shown = plain(&show::cell(spec, value, System::Metric).to_string());
            ensure!(said.replace(' ', "").contains(&shown.replace(' ', "")), "{said} has no {shown}");
        }
        ensure!(said.contains("better") && said.contains("slave bore"), "{said}");
        // One tap back, and what was tried is not lost.
        session.press("back-to-fitted").await?;
        session.until("document.getElementById('beside').textContent.includes('Nothing differs')").await?;
        session.press("let-go").await?;
        session.until("!document.getElementById('let-go')").await?;
        session.go("clutch").await?;
        // What was held comes back first, as it went last.
        session.press("undo").await?;
        session.press("undo").await?;
        session.says("answer-spoken", &desk::answer("1.1/clutch.slave-bore=23.8125/end", "clutch")?).await?;
        session.go("overview").await?;
        session.until("!!document.getElementById('let-go')").await
    })
    .await
}

/// On a calculator's own screen too: what is fitted says there, in the drawing and the charts, until it is put back.
#[tokio::test]
async fn what_is_fitted_stands_on_the_screen_of_what_is_on_trial() -> Result<()> {
    with_app("#clutch", async |session, _| {
        ensure!(session.value("document.getElementById('fitted-here')").await?.is_null(), "nothing is held yet");
        session.go("overview").await?;
        session.press("hold").await?;
        session.go("clutch").await?;
        let says = |words: &str| format!("document.getElementById('fitted-here')?.textContent.includes('{words}')");
        session.until(&says("Nothing differs")).await?;
        ensure!(session.value("document.querySelector('.ink-alternative')").await?.is_null());
        session.type_in("clutch.master-bore", "15.875").await?;
        session.until("document.querySelectorAll('#fitted-here [data-key]').length > 2").await?;
        session.says("fitted-answer", &desk::answer("1.1/end", "clutch")?).await?;
        session.says("answer-spoken", &desk::answer("1.1/clutch.master-bore=15.875/end", "clutch")?).await?;
        for there in ["Master bore", "by master bore", "All that differs"] {
            session.until(&says(there)).await?;
        }
        // Of this calculator alone.
        session
            .until("[...document.querySelectorAll('#fitted-here [data-key]')].every((it) => it.dataset.key.startsWith('clutch.'))")
            .await?;
        session.until("!!document.querySelector('.slot .ink-alternative') && !!document.querySelector('#charts .ink-fitted')").await?;
        session.until("document.getElementById('charts').textContent.includes('plate new, fitted')").await?;
        session.press("put-back-here").await?;
        session.until(&says("Nothing differs")).await?;
        session.until("document.getElementById('clutch.master-bore').value === '19.05'").await?;
        session.until("document.activeElement.id === 'fitted-here' && !document.querySelector('#charts .ink-fitted')").await?;
        session.press("undo").await?;
        session.until("document.getElementById('clutch.master-bore').value === '15.875'").await?;
        session.press("keep-here").await?;
        session.until(&says("Nothing differs")).await
    })
    .await?;
    with_app_at(WIDE, "#overview", async |session, _| {
        session.press("hold").await?;
        session.go("clutch").await?;
        session.type_in("clutch.master-bore", "15.875").await?;
        // Beside the answer, at its height and in its type.
        session
            .until(
                "((answer, fitted) => !!fitted && fitted.getBoundingClientRect().left >= answer.getBoundingClientRect().right
                    && Math.abs(fitted.getBoundingClientRect().top - answer.getBoundingClientRect().top) < 100
                    && getComputedStyle(fitted).fontSize === getComputedStyle(answer).fontSize)(
                    document.querySelector('.answer .sentence'), document.querySelector('#fitted-here .sentence'))",
            )
            .await?;
        session.value("document.querySelector('#fitted-here .acts > a').click()").await?;
        session.until("document.activeElement.id === 'beside'").await
    })
    .await
}

/// What comes of a part stands beside the list it is chosen from, price and mass with it.
#[tokio::test]
async fn a_part_goes_on_trial_by_itself() -> Result<()> {
    const SLOT: &str = "part.demo.slave-cylinder";
    let glance = "document.getElementById('glance')";
    with_app_at(WIDE, "#overview", async |session, _| {
        session.press("demo-shelf").await?;
        session.element(SLOT).await?;
        session.choose(SLOT, "slave-1").await?;
        for told in ["+52.00 EUR", "Pedal force at its peak", "better, by slave bore", "worse, by slave bore"] {
            session.until(&format!("{glance}?.textContent.includes('{told}')")).await?;
        }
        session.value(&format!("void document.getElementById('{SLOT}').scrollIntoView({{ block: 'end' }})")).await?;
        session.until(&format!("(({{ top, bottom }}) => top >= 0 && bottom <= innerHeight)({glance}.getBoundingClientRect())")).await?;
        // Nothing is told that reads alike.
        let pairs = "[...document.querySelectorAll('#beside .pair:has(> span)')]";
        session
            .until(&format!("{pairs}.length > 3 && {pairs}.every((it) => it.firstChild.textContent !== it.lastChild.textContent)"))
            .await?;
        session.press("put-back-trial").await?;
        session.until(&format!("!{glance} && document.getElementById('{SLOT}').value === ''")).await?;
        session.choose(SLOT, "slave-1").await?;
        session.press("keep-trial").await?;
        session.until(&format!("!{glance} && document.getElementById('{SLOT}').value === 'slave-1'")).await?;
        // Of two parts beside each other, what the second costs more.
        session.choose(SLOT, "slave-13-16").await?;
        session.until(&format!("{glance}?.textContent.includes('−8.00 EUR')")).await?;
        // A trial begins and ends as one step.
        session.press("let-go").await?;
        session.choose(SLOT, "").await?;
        session.element("let-go").await?;
        session.press("undo").await?;
        session.until(&format!("!document.getElementById('let-go') && document.getElementById('{SLOT}').value === 'slave-13-16'")).await
    })
    .await
}

/// On a phone the lists are below one another: what comes of a choice stays above them, and hides none.
#[tokio::test]
async fn what_is_on_trial_stays_in_sight_on_a_phone() -> Result<()> {
    const FIRST: &str = "part.demo.crank-pulley";
    const SECOND: &str = "part.demo.alternator-pulley";
    with_app("#overview", async |session, _| {
        session.press("demo-shelf").await?;
        session.element(FIRST).await?;
        session.choose(FIRST, "crank-130").await?;
        session.choose(SECOND, "alternator-pulley-54").await?;
        session.until("document.getElementById('glance')?.textContent.includes('by crank pulley, alternator pulley')").await?;
        let clear = |id: &str| {
            format!(
                "((glance, it) => glance.top >= 0 && glance.bottom <= it.top && it.bottom <= document.querySelector('.bar').getBoundingClientRect().top)\
                (document.getElementById('glance').getBoundingClientRect(), document.getElementById('{id}').getBoundingClientRect())"
            )
        };
        for block in ["start", "end"] {
            for id in ["part.demo.pedal-box", "part.demo.flywheel"] {
                session.value(&format!("void document.getElementById('{id}').scrollIntoView({{ block: '{block}' }})")).await?;
                session.until(&clear(id)).await.with_context(|| format!("{id} at the {block}"))?;
            }
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_part_is_chosen_from_a_shelf_typed_over_and_taken_away() -> Result<()> {
    const SLOT: &str = "part.demo.slave-cylinder";
    const BORE: &str = "clutch.slave-bore";
    with_app("#clutch", async |session, _| {
        // One's own value first: it has to come back.
        session.type_in(BORE, "21").await?;
        session.go("overview").await?;
        session.press("demo-shelf").await?;
        session.element(SLOT).await?;
        session.choose(SLOT, "slave-1").await?;
        session.until("document.getElementById('parts').textContent.includes('52.00 EUR')").await?;
        session.go(BORE).await?;
        session.until(&format!("document.getElementById('{BORE}').value === '25.4'")).await?;
        ensure!(session.note(BORE).await?.contains("from Slave cylinder 1 in"), "{}", session.note(BORE).await?);
        // It goes with the car, and the shelf stays on the device.
        session.reload().await?;
        session.until(&format!("document.getElementById('{BORE}').value === '25.4'")).await?;
        // Taken away, it leaves what stood there before.
        session.go("overview").await?;
        session.element(SLOT).await?;
        session.choose(SLOT, "").await?;
        session.until("!document.querySelector('.kit')").await?;
        session.go(BORE).await?;
        session.until(&format!("document.getElementById('{BORE}').value === '21'")).await?;
        session.press("undo").await?;
        session.until(&format!("document.getElementById('{BORE}').value === '25.4'")).await?;
        // Typed over, the number is one's own again, and the kit list says so.
        session.type_in(BORE, "22").await?;
        session.go("overview").await?;
        session.until("document.querySelector('.kit').textContent.includes('is yours')").await?;
        // Put back, it is the part's.
        session.go(BORE).await?;
        session.press(&format!("{BORE}.put-back")).await?;
        session.until(&format!("document.getElementById('{BORE}').value === '25.4'")).await?;
        ensure!(session.note(BORE).await?.contains("from Slave cylinder 1 in"), "{}", session.note(BORE).await?);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_shelf_with_faults_loads_the_rest_and_names_them() -> Result<()> {
    with_app("#overview", async |session, _| {
        let shelf = r#"{"trialfit-shelf": 1, "id": "mine", "name": "Mine <b>x</b>", "slots": [{"id": "slave", "name": "Slave"}],
            "parts": [{"id": "good", "name": "Good one", "slot": "slave", "sets": {"clutch.slave-bore": "20 mm"}},
                      {"id": "odd", "name": "Odd one", "slot": "slave", "sets": {"clutch.no-such-thing": 3}}]}"#;
        let open = format!(
            "void ((it) => {{ const files = new DataTransfer(); files.items.add(new File([{}], 'mine.json')); it.files = files.files; \
             it.dispatchEvent(new Event('change', {{ bubbles: true }})); }})(document.getElementById('open-shelf'))",
            serde_json::to_string(shelf)?
        );
        session.element("open-shelf").await?;
        session.value(&open).await?;
        session.until("/Odd one.*no-such-thing/.test(document.querySelector('#parts .problem')?.textContent ?? '')").await?;
        session.element("part.mine.slave").await?;
        session.until("document.querySelector('[data-shelf=mine] h3').textContent === 'Mine <b>x</b>'").await?;
        session.value(&open.replace("trialfit-shelf", "something-else")).await?;
        session.until("document.querySelector('#parts .problem').textContent.includes('no shelf')").await?;
        session.element("part.mine.slave").await.map(drop)
    })
    .await
}
