//! The build sheet, as it comes out of the printer.

use crate::page::{bare, with_app};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use trialfit_core::calculators::ALL;
use trialfit_core::share::link::{self, Link};

/// Names and sizes of paper in inches: ISO 216 and ANSI/ASME Y14.1.
const PAPERS: [(&str, f64, f64); 2] = [("A4", 8.27, 11.69), ("Letter", 8.5, 11.0)];

/// What comes out on this paper: its pages, and all the words on them.
async fn printed(session: &Session, width: f64, height: f64) -> Result<(usize, String)> {
    session.value("void (window.print = () => {})").await?;
    session.press("open-menu").await?;
    session.press("print-sheet").await?;
    // A camera wants 0.4 mm of each module (common practice, no source).
    let code = "document.querySelector('#build-sheet .qr')";
    session.until(&format!("parseFloat({code}.getAttribute('width')) >= 0.4 * {code}.viewBox.baseVal.width")).await?;
    session.press("close-menu").await?;
    session.printed(width, height).await
}

#[tokio::test]
async fn the_whole_car_goes_on_one_page() -> Result<()> {
    with_app("#clutch", async |session, url| {
        for (paper, width, height) in PAPERS {
            let (pages, text) = printed(session, width, height).await?;
            ensure!(pages == 1, "{pages} pages of {paper}");
            for calculator in ALL {
                ensure!(text.contains(&bare(calculator.label)), "{paper}: no {} in {text}", calculator.label);
            }
            for caution in ALL.iter().flat_map(|it| it.cautions) {
                ensure!(text.contains(&bare(caution)), "{paper}: no “{caution}” in {text}");
            }
            // Of charging both front drive and wiring can tell.
            let meter = text.matches(&bare("Confirm with a clamp meter")).count();
            ensure!(meter == 1, "{paper}: the clamp meter is asked for {meter} times");
            // Each caution once, under its calculator.
            let (_, cautions) = text.rsplit_once("Cautions").context("no cautions")?;
            for (at, it) in ALL.iter().enumerate().filter(|(_, it)| !it.cautions.is_empty()) {
                let own = cautions.split_once(&bare(it.label)).with_context(|| format!("{paper}: no {} in {cautions}", it.label))?.1;
                let next = ALL[at + 1..].iter().find(|next| !next.cautions.is_empty());
                let own = next.and_then(|next| own.split_once(&bare(next.label))).map_or(own, |(own, _)| own);
                for caution in it.cautions {
                    ensure!(own.matches(&bare(caution)).count() == 1, "{paper}: “{caution}” in {own}");
                }
            }
            let address = format!("{url}#{}", link::write(&Link::default()));
            ensure!(text.contains(&bare(&address)), "{paper}: no {address} in {text}");
            let today = session.string("new Date().toLocaleDateString('sv')").await?;
            ensure!(text.contains(&today), "{paper}: no {today} in {text}");
            // What was made for the printer is gone with it.
            session.until("!document.getElementById('build-sheet') && !document.documentElement.dataset.print").await?;
        }
        session.nothing_refused().await
    })
    .await
}

#[tokio::test]
async fn a_link_that_a_hand_can_type_stands_whole_beside_its_code() -> Result<()> {
    let fragment = "1.1/front-drive.crank-pulley=130/front-drive.alternator-pulley=66/clutch.clamp-load=6200/clutch.slave-bore=25.4/\
        clutch.pedal-ratio=5.5/flywheel.mass=5/bonnet-line.engine-down=12/end";
    with_app(&format!("#{fragment}"), async |session, url| {
        session.element("visit").await?;
        for (paper, width, height) in PAPERS {
            let (pages, text) = printed(session, width, height).await?;
            ensure!(pages == 1, "{pages} pages of {paper}");
            let address = format!("{url}#{}", link::write(&link::read(fragment)?.link));
            ensure!(address.len() > 160 && text.contains(&bare(&address)), "{paper}: no {address} in {text}");
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_car_of_ones_own_with_parts_goes_on_one_page_too() -> Result<()> {
    let name = "Sheet-.3c.b.3e.-test";
    let given = "clutch.slave-bore=25.4/clutch.clamp-load=6200/front-drive.alternator-pulley=66/front-drive.crank-pulley=130\
        /flywheel.mass=5/car.redline=7000/car.idle=900/wiring.circuits.2.load=12/wiring.circuits.3.load=9/bonnet-line.engine-down=12";
    with_app(&format!("#1.1/car.name={name}/{given}/end"), async |session, _| {
        session.press("take-theirs").await?;
        session.go("overview").await?;
        session.press("demo-shelf").await?;
        session.until("!!document.querySelector('[data-shelf] select option:nth-child(2)')").await?;
        let list = session.string("document.querySelector('[data-shelf] select').id").await?;
        let part = session.string("document.querySelector('[data-shelf] select option:nth-child(2)').value").await?;
        let said = session.string("document.querySelector('[data-shelf] select option:nth-child(2)').text.split(' · ')[0]").await?;
        session.choose(&list, &part).await?;
        for (paper, width, height) in PAPERS {
            let (pages, text) = printed(session, width, height).await?;
            ensure!(pages == 1, "{pages} pages of {paper}");
            for words in ["Sheet <b> test", &said, "Slave bore: 25.4", "Alternator pulley: 66", "Kit list"] {
                ensure!(text.contains(&bare(words)), "{paper}: no “{words}” in {text}");
            }
        }
        Ok(())
    })
    .await
}
