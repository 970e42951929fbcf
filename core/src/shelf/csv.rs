//! The kit list for a spreadsheet: comma-separated values (RFC 4180), one line a part, then what it comes to.

use super::Kit;
use crate::quantity::Mass;
use crate::share::markup::Translate;

/// The kit list as comma-separated text, in UTF-8, lines ended by CR and LF. Masses are in kilograms. Words are in the
/// reader's language, numbers as every program reads them.
#[must_use]
pub fn write(kit: &Kit, translate: Translate) -> String {
    let mut text = String::new();
    let head = ["For", "Part", "Id", "Price", "Currency", "Mass, kg", "Stock", "Link", "Comes off"].map(translate);
    row(&mut text, &head.each_ref().map(String::as_str));
    for line in &kit.lines {
        let id = format!("{}/{}", line.fitted.shelf, line.fitted.id);
        let name = line.fitted.to_string();
        let price = line.price.map(|price| (amount(price), price.currency.to_string())).unwrap_or_default();
        let mass = line.mass.map(kilograms).unwrap_or_default();
        let removes: Vec<&str> = line.removes.iter().map(|removed| removed.name.as_str()).collect();
        row(&mut text, &[&line.slot, &name, &id, &price.0, &price.1, &mass, &line.stock, &line.link, &removes.join("; ")]);
    }
    for total in &kit.totals {
        row(&mut text, &[&translate("Total"), "", "", &amount(total.price), &total.price.currency.to_string(), "", "", "", ""]);
    }
    row(&mut text, &[&translate("Total mass"), "", "", "", "", &kilograms(kit.mass), "", "", ""]);
    if kit.removed.si() > 0.0 {
        row(&mut text, &[&translate("Comes off the engine"), "", "", "", "", &kilograms(kit.removed), "", "", ""]);
    }
    for (count, what) in [(kit.not_priced, "Parts without a price"), (kit.not_weighed, "Parts without a mass")] {
        if count > 0 {
            row(&mut text, &[&translate(what), &count.to_string(), "", "", "", "", "", "", ""]);
        }
    }
    for trouble in &kit.troubles {
        row(&mut text, &[&translate("Still to settle"), &translate(&trouble.words), "", "", "", "", "", "", ""]);
    }
    text
}

fn amount(price: super::Price) -> String {
    let text = price.to_string();
    text.split(' ').next().unwrap_or_default().to_owned()
}

fn kilograms(mass: Mass) -> String {
    // To the gram, with what binary adds taken off.
    let grams = (mass.si() * 1000.0).round();
    (grams / 1000.0).to_string()
}

fn row(text: &mut String, cells: &[&str]) {
    for (at, cell) in cells.iter().enumerate() {
        if at > 0 {
            text.push(',');
        }
        cell_into(text, cell);
    }
    text.push_str("\r\n");
}

/// A cell; one that a spreadsheet would take for a formula is kept as words by an apostrophe.
fn cell_into(text: &mut String, cell: &str) {
    let formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let cell = if formula { format!("'{cell}") } else { cell.to_owned() };
    if cell.contains(['"', ',', '\n', '\r']) {
        text.push('"');
        text.push_str(&cell.replace('"', "\"\""));
        text.push('"');
    } else {
        text.push_str(&cell);
    }
}
