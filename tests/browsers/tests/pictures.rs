//! Pictures of every screen for the README: `cargo verify --only pictures` makes them anew.

use crate::page::{PHONE, Size, WIDE, every_screen, with_app_at};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use std::{collections::HashMap, fs, io::Cursor, path::Path};

/// Where they are kept.
const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/pictures");

/// A picture of more bytes has no place in a repository.
const MOST: usize = 60_000;

#[tokio::test]
#[ignore = "makes pictures; checks nothing"]
async fn pictures() -> Result<()> {
    fs::create_dir_all(FOLDER)?;
    of_screens(PHONE, "light", &every_screen().map(|screen| (screen, screen)).collect::<Vec<_>>()).await?;
    of_screens(PHONE, "dark", &[("clutch", "clutch-dark")]).await?;
    of_screens(WIDE, "light", &[("front-drive", "front-drive-wide")]).await
}

/// Takes a picture of each screen, under a name.
async fn of_screens(size: Size, colours: &str, screens: &[(&str, &str)]) -> Result<()> {
    with_app_at(size, "", async |session, _| {
        session.prefer(colours).await?;
        session.screen(size.0, size.1, 1).await?;
        for (screen, name) in screens {
            session.go(screen).await?;
            take(session, &Path::new(FOLDER).join(format!("{name}.png"))).await?;
        }
        Ok(())
    })
    .await
}

async fn take(session: &Session, file: &Path) -> Result<()> {
    // Drawn in the room it has by now, and at rest.
    session
        .value("void new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))).then(() => window.drawn = true)")
        .await?;
    session.until("window.drawn === true && document.getAnimations().every((it) => it.playState !== 'running')").await?;
    session.value("void delete window.drawn").await?;
    let picture = few_colours(&session.driver.screenshot_as_png().await?)?;
    ensure!(picture.len() <= MOST, "{} has {} bytes", file.display(), picture.len());
    fs::write(file, picture).with_context(|| format!("{} cannot be written", file.display()))
}

/// The same picture with at most 256 colours, each the nearest of the most frequent ones.
fn few_colours(picture: &[u8]) -> Result<Vec<u8>> {
    let mut reader = png::Decoder::new(Cursor::new(picture)).read_info()?;
    let mut pixels = vec![0; reader.output_buffer_size().context("too large")?];
    let info = reader.next_frame(&mut pixels)?;
    let step = info.color_type.samples();
    ensure!(info.bit_depth == png::BitDepth::Eight && step >= 3, "not a picture in colours");
    let colours: Vec<[u8; 3]> = pixels[..info.buffer_size()].chunks_exact(step).map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
    let mut counts: HashMap<[u8; 3], usize> = HashMap::new();
    for colour in &colours {
        *counts.entry(*colour).or_default() += 1;
    }
    let mut palette: Vec<([u8; 3], usize)> = counts.into_iter().collect();
    palette.sort_by_key(|(colour, count)| (std::cmp::Reverse(*count), *colour));
    palette.truncate(256);
    let distance = |one: &[u8; 3], other: &[u8; 3]| -> u32 { one.iter().zip(other).map(|(a, b)| u32::from(a.abs_diff(*b)).pow(2)).sum() };
    let mut nearest: HashMap<[u8; 3], u8> = HashMap::new();
    let index = |colour: &[u8; 3]| {
        let best = palette.iter().enumerate().min_by_key(|(_, (other, _))| distance(colour, other));
        best.map_or(0, |(at, _)| at as u8)
    };
    let indexed: Vec<u8> = colours.iter().map(|colour| *nearest.entry(*colour).or_insert_with(|| index(colour))).collect();
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, info.width, info.height);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_palette(palette.iter().flat_map(|(colour, _)| *colour).collect::<Vec<u8>>());
    encoder.set_compression(png::Compression::High);
    encoder.set_filter(png::Filter::NoFilter);
    encoder.write_header()?.write_image_data(&indexed)?;
    Ok(file)
}
