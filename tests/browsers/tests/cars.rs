//! Several cars on one device: names, copies, files, a way back for what was thrown away; undo through loading again; tabs.

use crate::desk;
use crate::kept::DEAF;
use crate::page::{quoted, with_app};
use crate::session::Session;
use crate::tools::CATCH;
use anyhow::{Context, Result, ensure};
use serde_json::json;
use trialfit_core::calculators::car::NAME;

const BORE: &str = "clutch.slave-bore";
const RATIO: &str = "clutch.pedal-ratio";

async fn answers(session: &Session, text: &str) -> Result<()> {
    session.says("answer-spoken", &desk::answer(text, "clutch")?).await.with_context(|| text.to_owned())
}

/// Presses a button, wherever it has got to by then: what is tried here is what comes of it.
async fn tap(session: &Session, id: &str) -> Result<()> {
    session.element(id).await?;
    session.value(&format!("void document.getElementById({}).click()", quoted(id))).await.map(drop)
}

/// An act on the car of this number, in the menu.
async fn act(session: &Session, number: u32, act: &str) -> Result<()> {
    let button = format!("document.querySelector('[data-car=\"{number}\"] [data-act=\"{act}\"]')");
    session.until(&format!("!!{button}")).await.with_context(|| format!("{act} {number}"))?;
    session.value(&format!("void {button}.click()")).await.map(drop)
}

/// The cars in the menu as they are listed, by number and name.
async fn listed(session: &Session, expected: &[(u32, &str)]) -> Result<()> {
    let list = "JSON.stringify([...document.querySelectorAll('#cars > li')].map((it) => \
        [+it.dataset.car, it.querySelector('input')?.value ?? it.querySelector('bdi').textContent]))";
    let expected = serde_json::to_string(&json!(expected))?;
    session.until(&format!("{list} === {}", quoted(&expected))).await
}

async fn name(session: &Session, number: u32, name: &str) -> Result<()> {
    let field = format!("document.querySelector('[data-car=\"{number}\"] input')");
    let change =
        format!("((it) => {{ it.value = {}; it.dispatchEvent(new Event('change', {{ bubbles: true }})); }})({field})", quoted(name));
    session.value(&format!("void {change}")).await.map(drop)
}

/// Opens a file of cars.
async fn bring(session: &Session, text: &str) -> Result<()> {
    let open = format!(
        "void ((it) => {{ const files = new DataTransfer(); files.items.add(new File([{}], 'cars.txt')); it.files = files.files; \
         it.dispatchEvent(new Event('change', {{ bubbles: true }})); }})(document.getElementById('open-cars'))",
        quoted(text)
    );
    session.element("open-cars").await?;
    session.value(&open).await.map(drop)
}

#[tokio::test]
async fn undo_and_redo_go_on_after_loading_again() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.type_in(BORE, "20.6375").await?;
        session.type_in(RATIO, "5.5").await?;
        tap(session, "undo").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
        session.reload().await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
        let label = "document.getElementById('redo').ariaLabel";
        session.until(&format!("{label} === 'Redo: pedal ratio'")).await?;
        tap(session, "redo").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/end").await?;
        session.reload().await?;
        tap(session, "undo").await?;
        tap(session, "undo").await?;
        answers(session, "1.1/end").await?;
        ensure!(session.value("document.getElementById('undo').ariaDisabled").await? == "true", "more than was done");
        tap(session, "redo").await?;

        // What is held as fitted is part of it.
        session.go("overview").await?;
        tap(session, "hold").await?;
        session.element("back-to-fitted").await?;
        session.reload().await?;
        tap(session, "undo").await?;
        session.until("!document.getElementById('back-to-fitted')").await?;
        tap(session, "redo").await?;
        session.element("back-to-fitted").await?;
        // A new step ends what could be redone.
        tap(session, "undo").await?;
        session.go("clutch").await?;
        session.type_in(RATIO, "6").await?;
        session.reload().await?;
        session.until("document.getElementById('redo').hidden").await
    })
    .await
}

#[tokio::test]
async fn undo_starts_anew_where_its_steps_are_damaged_or_refused() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.type_in(BORE, "20.6375").await?;
        session.until("localStorage.getItem('trialfit.steps.1')?.includes('Slave bore') === true").await?;
        for steps in ["", "rubbish", "1\n<Slave bore\n0 0 rubbish\n", "99\n<Slave bore\n0 0 1.1/end\n"] {
            // Set once the page has gone: it writes when it goes.
            let set = format!("addEventListener('pagehide', () => localStorage.setItem('trialfit.steps.1', {}))", quoted(steps));
            session.value(&format!("void {set}")).await?;
            session.reload().await?;
            answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
            tap(session, "undo").await?;
            answers(session, "1.1/clutch.slave-bore=20.6375/end").await.with_context(|| steps.to_owned())?;
            session.nothing_wrong().await?;
        }
        session.type_in(BORE, "22.225").await?;
        tap(session, "undo").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await
    })
    .await
}

#[tokio::test]
async fn cars_are_named_copied_thrown_away_and_put_back() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.type_in(BORE, "20.6375").await?;
        tap(session, "open-menu").await?;
        listed(session, &[(1, "")]).await?;
        name(session, 1, "Blue two-seater").await?;
        session.says("car-name", "Blue two-seater").await?;
        act(session, 1, "copy").await?;
        listed(session, &[(1, "Blue two-seater"), (2, "Blue two-seater, copy")]).await?;
        name(session, 2, "Green <b>roadster</b>").await?;
        listed(session, &[(1, "Blue two-seater"), (2, "Green <b>roadster</b>")]).await?;
        session.says("car-name", "Blue two-seater").await.context("the bench moved")?;

        // Thrown away, it can be put back after the window was closed and the page loaded again.
        act(session, 2, "throw away").await?;
        listed(session, &[(1, "Blue two-seater")]).await?;
        session.until("document.activeElement.id === 'put-back-2'").await?;
        tap(session, "close-menu").await?;
        session.reload().await?;
        tap(session, "open-menu").await?;
        tap(session, "put-back-2").await?;
        listed(session, &[(1, "Blue two-seater"), (2, "Green <b>roadster</b>")]).await?;
        session.until("!document.querySelector('#thrown li, h4')").await?;

        // Each has its own steps to undo.
        act(session, 2, "open").await?;
        tap(session, "close-menu").await?;
        session.type_in(BORE, "22.225").await?;
        tap(session, "open-menu").await?;
        act(session, 1, "open").await?;
        tap(session, "close-menu").await?;
        tap(session, "undo").await?;
        tap(session, "undo").await?;
        answers(session, "1.1/end").await?;
        tap(session, "open-menu").await?;
        act(session, 2, "open").await?;
        tap(session, "close-menu").await?;
        tap(session, "undo").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await
    })
    .await
}

#[tokio::test]
async fn cars_leave_as_files_and_come_back_beside_those_there() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.value(&format!("void (() => {{ {CATCH} }})()")).await?;
        session.type_in(BORE, "20.6375").await?;
        tap(session, "open-menu").await?;
        name(session, 1, "Blue: ½").await?;
        tap(session, "another-car").await?;
        act(session, 1, "save").await?;
        tap(session, "save-cars").await?;
        session.until("Object.keys(window.files).length === 2").await?;
        let one = session.string("window.files['Blue--½.trialfit.txt'].text").await?;
        ensure!(desk::kept(Some(one.clone()))?.own_value(trialfit_core::calculators::clutch::SLAVE_BORE.id.into()) == Some(0.020_637_5));
        let all = session.string("Object.entries(window.files).find(([name]) => name.startsWith('cars-20'))[1].text").await?;
        let before = session.kept_text("trialfit.build.1").await?;

        bring(session, &all).await?;
        session.says("cars-told", "2 cars were added.").await?;
        // Those called as one that is here are told apart.
        listed(session, &[(1, "Blue: ½"), (2, "My car"), (3, "Blue: ½ 2"), (4, "My car 2")]).await?;
        session
            .until("(({ top, bottom }) => top > 0 && bottom < innerHeight)(document.getElementById('cars-told').getBoundingClientRect())")
            .await?;
        ensure!(session.kept_text("trialfit.build.1").await? == before, "written over");
        let (brought, mut here) = (desk::kept(session.kept_text("trialfit.build.3").await?)?, desk::kept(before.clone())?);
        _ = here.set_text(NAME.id.into(), "Blue: ½ 2");
        ensure!(brought == here);

        // Damaged, later or strange: said, and the rest is there.
        let odd = format!("{one}Trialfit build 7\nname: Later\nrevision: 1\n1.1/car.idle=900/end\nTrialfit build 1\nname: Gone\n");
        bring(session, &odd).await?;
        session.says("cars-told", "2 cars were added.").await?;
        session.says("cars-told", "“Later”: It was stored by a later version (7)").await?;
        session.says("cars-told", "Car 3:").await?;
        bring(session, "%PDF-1.7 \u{0}<script>alert(1)</script>").await?;
        session.says("cars-told", "No car was added.").await?;
        ensure!(session.value("document.querySelectorAll('#cars > li').length").await? == json!(6));
        ensure!(session.kept_text("trialfit.build.1").await? == before);
        session.says("car-name", "My car").await
    })
    .await
}

#[tokio::test]
async fn the_next_customer_starts_with_this_ones_car_filed() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.type_in(BORE, "20.6375").await?;
        tap(session, "open-menu").await?;
        name(session, 1, "Blue two-seater").await?;
        tap(session, "next-customer").await?;
        session.says("car-name", "My car").await?;
        let filed = session.string("document.querySelector('[data-car=\"1\"] input').value").await?;
        let time = filed.strip_prefix("Blue two-seater, ").context(filed.clone())?;
        ensure!(session.value(&format!("!isNaN(new Date({}))", quoted(time))).await? == json!(true), "{filed}");
        // Taken up again and filed again, it has the later time alone.
        act(session, 1, "open").await?;
        tap(session, "next-customer").await?;
        let again = session.string("document.querySelector('[data-car=\"1\"] input').value").await?;
        ensure!(again.len() == filed.len() && again.starts_with("Blue two-seater, 20"), "{again}");
        tap(session, "close-menu").await
    })
    .await
}

#[tokio::test]
async fn tabs_on_one_car_hold_the_same() -> Result<()> {
    let holds = async |session: &Session, held: bool| session.until(&format!("{held} === !!document.getElementById('let-go')")).await;
    with_app("#clutch", async |session, url| {
        let driver = &session.driver;
        session.type_in("clutch.slave-bore", "20.6375").await?;
        session.go("overview").await?;
        holds(session, false).await?;
        let [first, second] = session.second_tab().await?;
        session.before_load(DEAF).await?;
        session.start(&format!("{url}#overview")).await?;
        tap(session, "hold").await?;
        holds(session, true).await?;
        driver.switch_to_window(first.clone()).await?;
        holds(session, true).await.context("heard of")?;
        session.says("adopted", "another tab").await?;
        // Taken back here, it is there too; so is what is let go of there.
        session.press("undo").await?;
        holds(session, false).await.context("taken back")?;
        driver.switch_to_window(second.clone()).await?;
        holds(session, false).await.context("undone")?;
        tap(session, "hold").await?;
        holds(session, true).await?;
        tap(session, "let-go").await?;
        holds(session, false).await?;
        driver.switch_to_window(first.clone()).await?;
        holds(session, false).await.context("let go of")?;
        session.until("!localStorage.getItem('trialfit.held.1')").await?;
        // A tab that did not hear writes over nothing: undo there gives what the other holds, then its own.
        driver.switch_to_window(second.clone()).await?;
        session.value("window.deaf = true").await?;
        driver.switch_to_window(first.clone()).await?;
        tap(session, "hold").await?;
        tap(session, "hold-another").await?;
        session.until("!!document.querySelector('#beside table')").await?;
        driver.switch_to_window(second).await?;
        holds(session, false).await.context("unheard of")?;
        tap(session, "hold").await?;
        session.says("adopted", "another tab").await?;
        session.press("undo").await?;
        session.until("!!document.querySelector('#beside table')").await.context("the other's")?;
        session.press("undo").await?;
        holds(session, false).await.context("its own")?;
        Ok(driver.switch_to_window(first).await?)
    })
    .await
}

/// The next customer's car is not on trial against this one's, and that is found again as it was left.
#[tokio::test]
async fn what_is_fitted_stays_with_its_car() -> Result<()> {
    const BLUE: &str = "Trialfit build 1\nname: Blue\nrevision: 1\n1.1/car.name=Blue/clutch.slave-bore=20.6375/end\n";
    let holds = async |session: &Session, held: bool| session.until(&format!("{held} === !!document.getElementById('let-go')")).await;
    // As a version before kept it: the car on the bench takes it over.
    let kept = format!("localStorage.setItem('trialfit.build.1', {}), localStorage.setItem('trialfit.held', '1.1/end')", quoted(BLUE));
    with_app("#clutch", async |session, url| {
        session.value(&format!("void ({kept})")).await?;
        session.start(&format!("{url}#overview")).await?;
        session.reload().await?;
        holds(session, true).await?;
        session.until("localStorage.getItem('trialfit.held.1') === '1.1/end' && !localStorage.getItem('trialfit.held')").await?;
        tap(session, "open-menu").await?;
        tap(session, "next-customer").await?;
        session.says("car-name", "My car").await?;
        holds(session, false).await.context("the next customer's")?;
        session.until("!document.getElementById('glance')").await?;
        // Something of its own is held for it; each car has its own, through loading again too.
        tap(session, "close-menu").await?;
        tap(session, "hold").await?;
        tap(session, "hold-another").await?;
        session.until("!!document.querySelector('#beside table') && !!localStorage.getItem('trialfit.held.2')").await?;
        tap(session, "open-menu").await?;
        act(session, 1, "open").await?;
        session.says("car-name", "Blue, 20").await?;
        holds(session, true).await?;
        session.until("!!document.querySelector('#beside .differs') && !document.querySelector('#beside table')").await?;
        act(session, 2, "open").await?;
        session.until("!!document.querySelector('#beside table')").await?;
        tap(session, "another-car").await?;
        holds(session, false).await.context("another car")?;
        // Thrown away and put back, a car has it still.
        act(session, 2, "throw away").await?;
        tap(session, "put-back-2").await?;
        act(session, 2, "open").await?;
        holds(session, true).await?;
        session.reload().await?;
        session.until("!!document.querySelector('#beside table')").await?;
        session.nothing_wrong().await
    })
    .await
}

#[tokio::test]
async fn a_store_filled_to_the_brim_loses_nothing_and_lets_files_out() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.value(&format!("void (() => {{ {CATCH} }})()")).await?;
        session.type_in(BORE, "20.6375").await?;
        session.until("!!localStorage.getItem('trialfit.steps.1')").await?;
        let before = session.kept_text("trialfit.build.1").await?;
        tap(session, "open-menu").await?;
        bring(session, "Trialfit build 1\nname: Red\nrevision: 1\n1.1/end").await?;
        listed(session, &[(1, ""), (2, "Red")]).await?;
        tap(session, "close-menu").await?;
        // Undo's own room is not enough for what comes.
        let fill = "void (() => { let count = 0; for (let size = 1 << 22; size > 0; size >>= 1) { \
            for (;;) { try { localStorage.setItem('else.' + count, 'x'.repeat(size)); count++; } catch { break; } } } \
            localStorage.removeItem('trialfit.steps.1'); \
            for (let size = 4096; size > 0; size >>= 1) { \
            for (;;) { try { localStorage.setItem('else.' + count, 'x'.repeat(size)); count++; } catch { break; } } } })()";
        session.value(fill).await?;
        session.type_in("clutch.free-play", "4.25").await?;
        session.says("not-kept", "no room").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/clutch.free-play=4.25/end").await?;
        ensure!(session.kept_text("trialfit.build.1").await? == before, "what was kept was lost");
        // It is saved as it is on the screen.
        tap(session, "open-menu").await?;
        act(session, 1, "save").await?;
        session.until("Object.keys(window.files).length === 1").await?;
        let saved = desk::kept(Some(session.string("Object.values(window.files)[0].text").await?))?;
        ensure!(saved == desk::opened("1.1/clutch.slave-bore=20.6375/clutch.free-play=4.25/end")?);
        for leave in [0, 2] {
            match leave {
                0 => tap(session, "another-car").await?,
                number => act(session, number, "open").await?,
            }
            session.says("cars-told", "no room").await?;
            answers(session, "1.1/clutch.slave-bore=20.6375/clutch.free-play=4.25/end").await.context("put aside for one not kept")?;
        }
        tap(session, "close-menu").await?;
        // With room again all is kept.
        session
            .value("Object.keys(localStorage).filter((it) => it.startsWith('else.')).forEach((it) => localStorage.removeItem(it))")
            .await?;
        session.type_in("clutch.free-play", "5").await?;
        session.until("!document.getElementById('not-kept')").await?;
        let kept = desk::kept(session.kept_text("trialfit.build.1").await?)?;
        ensure!(kept == desk::opened("1.1/clutch.slave-bore=20.6375/clutch.free-play=5/end")?);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn tabs_that_throw_away_or_file_a_car_leave_the_others_work() -> Result<()> {
    with_app("#clutch", async |session, url| {
        let driver = &session.driver;
        session.type_in(BORE, "20.6375").await?;
        let [first, second] = session.second_tab().await?;
        session.start(&format!("{url}#clutch")).await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;

        // One tab goes on to another car and throws away the one that the other shows.
        tap(session, "open-menu").await?;
        tap(session, "another-car").await?;
        act(session, 1, "throw away").await?;
        driver.switch_to_window(first.clone()).await?;
        session.says("gone", "threw this car away").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
        session.type_in(RATIO, "5.5").await?;
        session.until("!document.getElementById('gone')").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/end").await?;
        // Put back there, both are kept, and neither tab moved.
        driver.switch_to_window(second.clone()).await?;
        tap(session, "put-back-1").await?;
        listed(session, &[(1, ""), (2, "My car"), (3, "")]).await?;
        tap(session, "close-menu").await?;
        ensure!(desk::kept(session.kept_text("trialfit.build.3").await?)? == desk::opened("1.1/clutch.slave-bore=20.6375/end")?);
        let both = desk::opened("1.1/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/end")?;
        ensure!(desk::kept(session.kept_text("trialfit.build.1").await?)? == both);

        // Loaded again, each tab shows the car it had.
        session.reload().await?;
        session.says("car-name", "My car").await?;
        driver.switch_to_window(first.clone()).await?;
        session.reload().await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/end").await?;

        // One tab files the car for the next customer; the other goes on with it as filed, and can take its own steps back.
        driver.switch_to_window(second.clone()).await?;
        tap(session, "open-menu").await?;
        act(session, 1, "open").await?;
        tap(session, "next-customer").await?;
        tap(session, "close-menu").await?;
        driver.switch_to_window(first.clone()).await?;
        session.says("car-name", "Demo car, 20").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/end").await?;
        tap(session, "undo").await?;
        tap(session, "undo").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
        driver.switch_to_window(second).await?;
        session.says("car-name", "My car").await?;
        driver.switch_to_window(first).await.map_err(Into::into)
    })
    .await
}
