//! For every hand, eye and ear: rules of accessibility, room for fingers, the way through by keys, large text and narrow screens.

use crate::page::{PHONE, Size, WIDE, every_screen, screens, with_app_at};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use std::{env, fs};
use thirtyfour::Key;

/// Opens everything that is folded.
const UNFOLD: &str = "document.querySelectorAll('details').forEach((it) => it.open = true)";

/// Fulfilled once nothing on the page has changed for a moment: tools that were opened have drawn.
const CALM: &str = "new Promise((done) => { const watch = new MutationObserver(() => again()); let timer = 0; \
    const again = () => { clearTimeout(timer); timer = setTimeout(() => { watch.disconnect(); done(true); }, 400); }; \
    watch.observe(document.body, { subtree: true, childList: true, attributes: true }); again(); })";

pub(crate) async fn unfold(session: &Session) -> Result<()> {
    session.value(UNFOLD).await?;
    session.awaited(CALM).await.map(drop)
}

/// What can be used, in the order of the document; of chips the one chosen, from which arrow keys lead to the others.
const USED: &str = "[...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex=\"0\"]')].filter((it) => \
    it.tabIndex >= 0 && !it.disabled && it.checkVisibility({ visibilityProperty: true }) && \
    (it.type !== 'radio' || it.checked || ![...document.getElementsByName(it.name)].some((other) => other.checked)))";

/// Breaches of the rules on what is open, in a line each.
pub(crate) async fn breaches(session: &Session) -> Result<Vec<String>> {
    let result = session.awaited("axe.run({ resultTypes: ['violations'] })").await?;
    let violations = result["violations"].as_array().with_context(|| format!("the rules did not run: {result}"))?;
    let rules = result["testEngine"]["version"].as_str();
    ensure!(rules.is_some(), "the rules did not run: {result}");
    let line = |violation: &Value| {
        let nodes = violation["nodes"].as_array().into_iter().flatten().take(3);
        let nodes: Vec<String> = nodes.map(|node| format!("{} ({})", node["target"], node["failureSummary"])).collect();
        format!("{}: {}", violation["id"], nodes.join("; "))
    };
    Ok(violations.iter().map(line).collect())
}

/// Every state of the page that looks different, checked one by one.
async fn every_screen_obeys_the_rules(size: Size, colours: &str) -> Result<()> {
    let Some(axe) = env::var_os("TRIALFIT_AXE") else {
        eprintln!("ACCESSIBILITY IS NOT CHECKED: there are no rules here");
        return Ok(());
    };
    let rules = fs::read_to_string(axe)?;
    with_app_at(size, "", async |session, _| {
        session.prefer(colours).await?;
        session.driver.execute(rules, Vec::new()).await?;
        let mut all = Vec::new();
        let mut check = async |state: &str| -> Result<()> {
            session.until("document.getAnimations().every((it) => it.playState !== 'running')").await?;
            all.extend(breaches(session).await?.into_iter().map(|breach| format!("{state}: {breach}")));
            Ok(())
        };
        for screen in every_screen() {
            session.go(screen).await?;
            unfold(session).await?;
            check(screen).await?;
        }
        session.go("overview").await?;
        session.press("demo-shelf").await?;
        session.element("combine").await?;
        unfold(session).await?;
        session.press("combine-go").await?;
        session.until("!!document.querySelector('.chances .found')").await?;
        unfold(session).await?;
        check("a shelf and a search among it").await?;
        session.go("clutch").await?;
        session.press("choice-more").await?;
        session.press("clutch.slave-bore.more").await?;
        session.enter("clutch.slave-bore", "as it was").await?;
        check("a field in error").await?;
        session.leave().await?;
        session.value("document.querySelector('[id=\"clutch.effort.working\"], [id$=\".working\"]').click()").await?;
        session.value("document.querySelector('.drawing-handle').click()").await?;
        check("working shown, a handle armed").await?;
        session.go("overview").await?;
        session.press("hold").await?;
        session.go("clutch").await?;
        session.press("choice-less").await?;
        session.until("document.querySelectorAll('#fitted-here [data-key]').length > 2").await?;
        check("what is fitted beside what is on trial").await?;
        session.press("open-menu").await?;
        check("menu").await?;
        session.press("close-menu").await?;
        session.press("open-send").await?;
        check("send").await?;
        session.press("close-send").await?;
        session.value("void (location.hash = '1.1/clutch.slave-bore=20/car.idle=zzz/note=try/end')").await?;
        session.until("!!document.getElementById('visit')").await?;
        check("a car that came by link").await?;
        session.press("choice-more").await?;
        session.until("document.getElementById('ask').open").await?;
        check("asking").await?;
        ensure!(all.is_empty(), "{}", all.join("\n"));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_rules_hold_on_a_phone_in_light() -> Result<()> {
    every_screen_obeys_the_rules(PHONE, "light").await
}

#[tokio::test]
async fn the_rules_hold_on_a_phone_in_the_dark() -> Result<()> {
    every_screen_obeys_the_rules(PHONE, "dark").await
}

#[tokio::test]
async fn the_rules_hold_on_a_desk_in_light() -> Result<()> {
    every_screen_obeys_the_rules(WIDE, "light").await
}

#[tokio::test]
async fn the_rules_hold_on_a_desk_in_the_dark() -> Result<()> {
    every_screen_obeys_the_rules(WIDE, "dark").await
}

/// What reaches beyond the side of a screen WIDTH wide, though it does not scroll by itself; with large letters
/// drawings and charts do.
const BEYOND: &str = "[...document.querySelectorAll('body *')].filter((it) => it.checkVisibility() && !it.closest('.apart, .skip, .one-line, .plot-values, .equation, svg, .drawing-words') && \
    !(matchMedia('(max-width: 17.99rem)').matches && it.closest('.slot > *, .plot-frame')) && \
    it.getBoundingClientRect().right > WIDTH + 1).slice(0, 5).map((it) => it.id || it.className || it.tagName)";

async fn nothing_scrolls_sideways(session: &Session, width: u32, state: &str) -> Result<()> {
    // A phone shows a page that is too wide smaller: then what it calls its width is more than the screen's.
    let beyond = session.value(&BEYOND.replace("WIDTH", &width.to_string())).await?;
    let too_wide = session.number(&format!("Math.max(innerWidth, document.documentElement.scrollWidth) - {width}")).await?;
    ensure!(too_wide <= 0.0 && beyond == json!([]), "{state} is {too_wide} px too wide: {beyond}");
    Ok(())
}

async fn everything_fits(session: &Session, width: u32) -> Result<()> {
    for screen in every_screen() {
        session.go(screen).await?;
        unfold(session).await?;
        session.value("document.querySelectorAll('button.more').forEach((it) => it.click())").await?;
        nothing_scrolls_sideways(session, width, screen).await?;
    }
    session.go("clutch").await?;
    session.enter("clutch.slave-bore", "this is not a number at all").await?;
    nothing_scrolls_sideways(session, width, "a field in error").await?;
    session.leave().await?;
    for dialog in ["menu", "send"] {
        session.press(&format!("open-{dialog}")).await?;
        nothing_scrolls_sideways(session, width, dialog).await?;
        let wide = session
            .number(&format!("document.getElementById('{dialog}').scrollWidth - document.getElementById('{dialog}').clientWidth"))
            .await?;
        ensure!(wide <= 0.0, "{dialog} scrolls sideways by {wide} px");
        session.press(&format!("close-{dialog}")).await?;
    }
    Ok(())
}

#[tokio::test]
async fn nothing_scrolls_sideways_on_a_narrow_screen() -> Result<()> {
    with_app_at((320, 640), "", async |session, _| everything_fits(session, 320).await).await
}

/// Words of the drawing that stand on others or are cut off. A line's box is a third higher than its letters.
const CROWDED: &str = "(() => { const sheet = document.querySelector('.drawing-sheet').getBoundingClientRect(); \
    const words = [...document.querySelectorAll('.drawing-sheet text')].map((it) => [it.textContent, it.getBoundingClientRect()]); \
    const apart = (one, other) => one.right < other.left + 4 || other.right < one.left + 4 || one.bottom < other.top + 12 || other.bottom < one.top + 12; \
    const cut = words.filter(([, it]) => it.left < sheet.left - 1 || it.right > sheet.right + 1).map(([text]) => `${text} is cut off`); \
    const crossed = words.flatMap(([text, it], at) => words.slice(at + 1).filter(([, other]) => !apart(it, other)).map(([other]) => `${text} on ${other}`)); \
    return [...cut, ...crossed].join('; '); })()";

#[tokio::test]
async fn nothing_scrolls_sideways_at_twice_the_text() -> Result<()> {
    with_app_at(PHONE, "", async |session, _| {
        session.ask("Page.setFontSizes", json!({ "fontSizes": { "standard": 32, "fixed": 26 } })).await?;
        session.until("getComputedStyle(document.documentElement).fontSize === '32px'").await?;
        session.until("document.querySelector('.skip').getBoundingClientRect().bottom <= 0").await?;
        everything_fits(session, PHONE.0).await?;
        for calculator in screens().filter(|&it| it != "car") {
            session.go(calculator).await?;
            session.until("document.querySelectorAll('.drawing-sheet text').length > 0").await.context(calculator)?;
            session.until(&format!("{CROWDED} === ''")).await.with_context(|| calculator.to_owned())?;
        }
        session.screen(WIDE.0, WIDE.1, 1).await?;
        everything_fits(session, WIDE.0).await
    })
    .await
}

/// What a finger has to hit, and is smaller than 44 px either way. Links within a sentence need not be (WCAG 2.2, 2.5.8,
/// inline); of a chip its label is what is hit; what only a voice finds, or lies under the answer, is not hit by a finger.
const SMALL: &str = "[...document.querySelectorAll('a[href], button, input, select, textarea, summary')].filter((it) => \
    it.checkVisibility({ visibilityProperty: true }) && !it.closest('.skip, .apart, .strip.away .where, .strip.typing .where') && !(it.tagName === 'A' && it.closest('li, p') && !it.closest('nav'))) \
    .map((it) => [it, (it.closest('label') ?? it).getBoundingClientRect()]).filter(([, box]) => box.width < 43.9 || box.height < 43.9) \
    .map(([it, box]) => `${it.id || it.className || it.textContent} ${box.width.toFixed(1)} × ${box.height.toFixed(1)}`).slice(0, 12)";

#[tokio::test]
async fn there_is_room_for_fingers() -> Result<()> {
    with_app_at(PHONE, "", async |session, _| {
        let check = async |state: &str| -> Result<()> {
            let small = session.value(SMALL).await?;
            ensure!(small == json!([]), "too small on {state}: {small:#}");
            Ok(())
        };
        for screen in every_screen() {
            session.go(screen).await?;
            unfold(session).await?;
            session.value("document.querySelectorAll('button.more').forEach((it) => it.click())").await?;
            check(screen).await?;
        }
        session.go("clutch").await?;
        session.enter("clutch.slave-bore", "22").await?;
        check("a field with its keys").await?;
        session.leave().await?;
        session.value("document.querySelector('.drawing-handle').click()").await?;
        check("an armed handle").await?;
        for dialog in ["menu", "send"] {
            session.press(&format!("open-{dialog}")).await?;
            check(dialog).await?;
            session.press(&format!("close-{dialog}")).await?;
        }
        Ok(())
    })
    .await
}

/// Notes what the focus comes to, and what is wrong with how it shows. Handles show through one another.
const WATCH: &str = "window.walked = []; window.amiss = []; document.addEventListener('focusin', ({ target }) => { \
    const name = target.id || target.ariaLabel || target.textContent.slice(0, 30) || target.className; \
    const hit = target.closest('label') ?? target; \
    walked.push(target); \
    const ringed = (it) => getComputedStyle(it).outlineStyle !== 'none' && parseFloat(getComputedStyle(it).outlineWidth) >= 2; \
    if (!ringed(target) && !ringed(hit)) amiss.push(`${name}: no ring`); \
    const box = hit.getBoundingClientRect(); \
    const top = document.elementFromPoint(box.x + Math.min(box.width / 2, 22), box.y + Math.min(box.height / 2, 22)); \
    const twin = top?.matches('.drawing-handle') && target.matches('.drawing-handle'); \
    if (!top || !(hit.contains(top) || top.contains(hit) || twin)) amiss.push(`${name}: under ${top?.outerHTML.slice(0, 60)} at ${box.y}`); })";

async fn the_keys_reach_everything(size: Size) -> Result<()> {
    with_app_at(size, "", async |session, _| {
        // Else a window that nobody looks at tells of the first focus with the first key.
        session.ask("Emulation.setFocusEmulationEnabled", json!({ "enabled": true })).await?;
        session.driver.execute(WATCH, Vec::new()).await?;
        for screen in every_screen() {
            session.go(screen).await?;
            unfold(session).await?;
            // What tools work out on a busy machine comes later than a calm page.
            let mut calm = (0, 0);
            while calm.1 < 3 {
                session.awaited(CALM).await?;
                let used = session.number(&format!("{USED}.length")).await? as usize;
                calm = if used == calm.0 { (used, calm.1 + 1) } else { (used, 0) };
            }
            session.value("void document.querySelector('.skip').focus()").await?;
            session.value(&format!("(window.expected = {USED}, walked.length = amiss.length = 0)")).await?;
            let count = session.number("expected.length").await? as usize;
            ensure!(count > 40, "{screen} has only {count} things to use");
            let keys: String = std::iter::repeat_n(char::from(Key::Tab), count - 1).collect();
            session.driver.action_chain().send_keys(keys).perform().await?;
            let astray = "expected.slice(1).findIndex((it, at) => it !== walked[at])";
            let at = session.number(astray).await?;
            let name = |it: &str| format!("({it})?.outerHTML.slice(0, 120) ?? 'nothing'");
            if at >= 0.0 {
                let (wanted, came) = (name(&format!("expected[{at} + 1]")), name(&format!("walked[{at}]")));
                anyhow::bail!("on {screen} step {at} comes to {}, not to {}", session.string(&came).await?, session.string(&wanted).await?);
            }
            let amiss = session.value("amiss.slice(0, 10)").await?;
            ensure!(amiss == json!([]), "on {screen}: {amiss:#}");
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_keys_reach_everything_on_a_phone() -> Result<()> {
    the_keys_reach_everything(PHONE).await
}

#[tokio::test]
async fn the_keys_reach_everything_on_a_desk() -> Result<()> {
    the_keys_reach_everything(WIDE).await
}

/// Presses what has this id, by keys, and fails if the focus is nowhere afterwards.
async fn press_by_keys(session: &Session, id: &str) -> Result<()> {
    session.element(id).await?.send_keys(Key::Enter + "").await?;
    let settled = "new Promise((done) => setTimeout(() => requestAnimationFrame(() => done(document.activeElement !== document.body)), 0))";
    ensure!(session.awaited(settled).await? == json!(true), "pressing {id} lost the focus");
    Ok(())
}

#[tokio::test]
async fn the_focus_is_never_lost() -> Result<()> {
    with_app_at(PHONE, "#clutch", async |session, _| {
        // Each of these takes away, or may take away, the very button that was pressed.
        session.type_in("clutch.pedal-ratio", "5.5").await?;
        for id in ["clutch.pedal-ratio.put-back", "undo", "undo", "redo", "redo"] {
            press_by_keys(session, id).await?;
        }
        for key in ["clutch.pedal-ratio", "clutch.free-play"] {
            press_by_keys(session, &format!("{key}.more")).await?;
            press_by_keys(session, &format!("{key}.not-given")).await?;
            press_by_keys(session, &format!("{key}.dont-know")).await?;
        }
        for dialog in ["menu", "send"] {
            press_by_keys(session, &format!("open-{dialog}")).await?;
            press_by_keys(session, &format!("close-{dialog}")).await?;
            session.until(&format!("document.activeElement.id === 'open-{dialog}'")).await?;
        }
        session.go("car").await?;
        for id in ["car.gears.add", "car.gears.6.up", "car.gears.1.down", "car.gears.6.remove", "car.gears.5.remove"] {
            press_by_keys(session, id).await?;
        }
        press_by_keys(session, "clear-demo").await?;
        press_by_keys(session, "open-menu").await?;
        press_by_keys(session, "another-car").await?;
        press_by_keys(session, "close-menu").await?;
        for answer in ["keep-mine", "take-theirs", "keep-both"] {
            session.value("void (location.hash = '1.1/clutch.slave-bore=20/show=clutch.slave-bore/end')").await?;
            press_by_keys(session, answer).await?;
        }
        session.value("void (location.hash = '1z.1/AAAA/end')").await?;
        session.until("!!document.getElementById('no-link')").await?;
        session.value("void (document.querySelector('#no-link button').id = 'dismiss')").await?;
        press_by_keys(session, "dismiss").await
    })
    .await
}
