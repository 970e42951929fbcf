//! Pictures of every screen, for the README and to compare with: `cargo verify --only pictures` makes them anew.

use crate::page::{PHONE, Size, WIDE, every_screen, with_app_at};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use std::{
    collections::HashMap,
    fs,
    io::Cursor,
    path::{Path, PathBuf},
};

/// Where they are kept.
const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/pictures");

/// What screens are compared with: small ones, of the sizes, colours and screens below.
const SMALL: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/pictures/small");

/// So many pixels each way make one of a small picture. Letters are a grey there, which hardly changes with the machine's
/// fonts and their smoothing; a line of a drawing still shows.
const COARSE: usize = 4;

/// Channels that differ by more than this, of 255, make a pixel another.
const SAME: u8 = 40;

/// The share of pixels that may be others. The same machine gives 0, see DEVELOPERS.md for what other things give.
const TOLERANCE: f64 = 0.03;

/// A picture of more bytes has no place in a repository.
const MOST: usize = 60_000;

#[tokio::test]
#[ignore = "makes pictures; checks nothing"]
async fn pictures() -> Result<()> {
    fs::create_dir_all(FOLDER)?;
    of_screens(PHONE, "light", &every_screen().map(|screen| (screen, screen)).collect::<Vec<_>>()).await?;
    of_screens(PHONE, "dark", &[("clutch", "clutch-dark")]).await?;
    of_screens(WIDE, "light", &[("front-drive", "front-drive-wide")]).await?;
    fs::create_dir_all(SMALL)?;
    each_small(async |_, name, small| Ok(fs::write(small_file(&name), few_colours(&small)?)?)).await
}

fn small_file(name: &str) -> PathBuf {
    Path::new(SMALL).join(format!("{name}.png"))
}

/// Shows every screen at two sizes in two colours and gives a name and a small picture of each.
async fn each_small(mut with: impl AsyncFnMut(&Session, String, Image) -> Result<()>) -> Result<()> {
    for (size, width) in [(PHONE, "phone"), (WIDE, "wide")] {
        with_app_at(size, "", async |session, _| {
            session.screen(size.0, size.1, 1).await?;
            for colours in ["light", "dark"] {
                session.prefer(colours).await?;
                for screen in every_screen() {
                    session.go(screen).await?;
                    let small = shown(session).await?.coarse();
                    with(session, format!("{screen}-{width}-{colours}"), small).await?;
                }
            }
            Ok(())
        })
        .await?;
    }
    Ok(())
}

#[tokio::test]
async fn screens_look_as_they_did() -> Result<()> {
    let mut others = Vec::new();
    each_small(async |session, name, small| {
        let before = Image::read(&fs::read(small_file(&name)).with_context(|| format!("there is no picture of {name}"))?)?;
        let share = before.differs(&small);
        eprintln!("{name}: {:.2} % differs", 100.0 * share);
        if share > TOLERANCE {
            others.push(format!("{name}: {:.1} %", 100.0 * share));
        }
        // What is to be seen is seen: without the answer it is another picture, without its colours all the more.
        if name == "clutch-phone-light" {
            let lost = async |what: &str| -> Result<f64> {
                session.value(&format!("void document.querySelector('{what}').classList.add('apart')")).await?;
                let share = before.differs(&shown(session).await?.coarse());
                session.value(&format!("void document.querySelector('{what}').classList.remove('apart')")).await?;
                eprintln!("{name} without {what}: {:.2} % differs", 100.0 * share);
                Ok(share)
            };
            ensure!(lost(".sentence").await? > TOLERANCE && lost(".drawing svg").await? > TOLERANCE, "a loss would not be noticed");
            session.prefer("dark").await?;
            let share = before.differs(&shown(session).await?.coarse());
            session.prefer("light").await?;
            ensure!(share > 0.9, "{share} differs in dark colours");
        }
        Ok(())
    })
    .await?;
    let advice = "look at them; where they are as they should be, `cargo verify --only pictures` keeps the new ones";
    ensure!(others.is_empty(), "screens look otherwise, {advice}: {others:?}");
    Ok(())
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
    let picture = few_colours(&shown(session).await?)?;
    ensure!(picture.len() <= MOST, "{} has {} bytes", file.display(), picture.len());
    fs::write(file, picture).with_context(|| format!("{} cannot be written", file.display()))
}

/// What is on the screen, drawn in the room it has by now, and at rest.
async fn shown(session: &Session) -> Result<Image> {
    session
        .value("void new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))).then(() => window.drawn = true)")
        .await?;
    session.until("window.drawn === true && document.getAnimations().every((it) => it.playState !== 'running')").await?;
    session.value("void delete window.drawn").await?;
    Image::read(&session.driver.screenshot_as_png().await?)
}

struct Image {
    width: usize,
    height: usize,
    pixels: Vec<[u8; 3]>,
}

impl Image {
    fn read(picture: &[u8]) -> Result<Self> {
        let mut decoder = png::Decoder::new(Cursor::new(picture));
        decoder.set_transformations(png::Transformations::EXPAND);
        let mut reader = decoder.read_info()?;
        let mut bytes = vec![0; reader.output_buffer_size().context("too large")?];
        let info = reader.next_frame(&mut bytes)?;
        let step = info.color_type.samples();
        ensure!(info.bit_depth == png::BitDepth::Eight && step >= 3, "not a picture in colours");
        let pixels = bytes[..info.buffer_size()].chunks_exact(step).map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
        Ok(Self { width: info.width as usize, height: info.height as usize, pixels })
    }

    /// The mean of each square of [`COARSE`] by as many pixels.
    fn coarse(&self) -> Self {
        let (width, height) = (self.width / COARSE, self.height / COARSE);
        let mean = |at: usize| {
            let corner = at / width * COARSE * self.width + at % width * COARSE;
            let square = || (0..COARSE * COARSE).map(|it| self.pixels[corner + it / COARSE * self.width + it % COARSE]);
            [0, 1, 2].map(|channel| (square().map(|pixel| usize::from(pixel[channel])).sum::<usize>() / (COARSE * COARSE)) as u8)
        };
        Self { width, height, pixels: (0..width * height).map(mean).collect() }
    }

    /// The share of pixels that are others in `now`; all of them if its size is another.
    fn differs(&self, now: &Self) -> f64 {
        if (self.width, self.height) != (now.width, now.height) {
            return 1.0;
        }
        let other = |(one, other): &(&[u8; 3], &[u8; 3])| one.iter().zip(*other).any(|(one, other)| one.abs_diff(*other) > SAME);
        self.pixels.iter().zip(&now.pixels).filter(other).count() as f64 / self.pixels.len() as f64
    }
}

/// The picture as a file with at most 256 colours, each the nearest of the most frequent ones.
fn few_colours(Image { width, height, pixels: colours }: &Image) -> Result<Vec<u8>> {
    let mut counts: HashMap<[u8; 3], usize> = HashMap::new();
    for colour in colours {
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
    let mut encoder = png::Encoder::new(&mut file, *width as u32, *height as u32);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_palette(palette.iter().flat_map(|(colour, _)| *colour).collect::<Vec<u8>>());
    encoder.set_compression(png::Compression::High);
    encoder.set_filter(png::Filter::NoFilter);
    encoder.write_header()?.write_image_data(&indexed)?;
    Ok(file)
}
