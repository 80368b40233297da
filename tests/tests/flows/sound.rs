//! What the page plays, taken from the browser and measured.
//!
//! A stand-in in front of the page's own scripts listens: it keeps every piece of sound that is handed to the browser,
//! and when it is to be heard. The pieces are then put together in a real offline context of the same browser.

#![allow(clippy::print_stdout, reason = "what is skipped is said")]

use anyhow::{Result, ensure};
use crookwise_sound::CEILING;
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::hearing::{Heard, LISTEN, cents, peak};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![notes_are_heard_as_they_should_be];

/// Partial 10 of a horn in E-flat, at A = 440 in equal temperament: 14 cents flat.
const TENTH: &str = "/read?staff=Corni+in+Es&notes=E5&at=1";
/// E-flat 3 of equal temperament in Hz, where the crook's own C4 sounds, is partial 4.
const CROOK: f64 = 155.563_491_861_040_46;
/// G4 of equal temperament in Hz.
const G4: f64 = 391.995_435_981_749_3;
/// Four players on one staff and seven more staves: much at once.
const MANY: &str = "/read?staff=4+Corni+in+Es&players=4&notes=C5&notes2=E5&notes3=G5&notes4=C6\
    &staff=Trombe+in+Es&notes=C5&staff=Trombe+in+Es&notes=G5&staff=Violino+I&notes=G5&staff=Violino+II&notes=Eb5\
    &staff=Viola&notes=Bb3&staff=Bassi&notes=Eb3&staff=Fagotti&notes=Eb3&at=1";
/// A note held over a column while another plays on, and the same struck again.
const HELD: &str = "/read?staff=Corni+in+C&notes=C5._";
const STRUCK: &str = "/read?staff=Corni+in+C&notes=C5.C5";

/// The volume in the settings.
async fn volume(page: &Page, wanted: &str) -> Result<()> {
    page.click("button", "Settings").await?;
    page.value_is("slider", "Volume", wanted).await?;
    page.press("Escape").await?;
    page.find_gone("dialog", "Settings").await
}

/// Sets it there by a key, pressed so often.
async fn set_volume(page: &Page, key: &str, times: usize) -> Result<()> {
    page.click("button", "Settings").await?;
    page.focus("slider", "Volume").await?;
    for _ in 0..times {
        page.press(key).await?;
    }
    page.click("button", "Done").await?;
    page.find_gone("dialog", "Settings").await
}

/// As whom notes are heard from now on.
async fn heard_as(page: &Page, way: &str) -> Result<()> {
    page.click("button", "Ways of hearing").await?;
    page.choose("Heard", way).await?;
    page.click("button", "Done").await?;
    page.find_gone("dialog", "Ways of hearing").await
}

/// How loud it is stands beside the first sound, and is gone for good when it was understood.
async fn caution(page: &Page) -> Result<()> {
    page.sees("With headphones, turn it down before you listen.").await?;
    page.value_is("slider", "Volume", "60").await?;
    page.click("button", "All right").await?;
    page.find_gone("slider", "Volume").await
}

/// Another page by its address, while what was loaded goes on.
async fn turn_to(page: &Page, hash: &str, staff: &str) -> Result<()> {
    page.set_hash(hash).await?;
    wait::until(hash, async || {
        let groups = page.players().await?;
        Ok(groups.first().is_some_and(|(name, _)| name.starts_with(staff)).then_some(()))
    })
    .await
}

/// Begins softly: the first millisecond is less than a tenth of the loudest, the first sample is nothing.
fn begins_softly(heard: &Heard) -> Result<()> {
    let loudest = heard.peak();
    let first = peak(heard.between(0.0, 0.001));
    ensure!(loudest > 0.01, "nothing is heard");
    ensure!(heard.samples[0].abs() < 0.001 && first < loudest / 10.0, "it begins with {first} of {loudest}");
    Ok(())
}

async fn pitch_of_a_note(page: &Page) -> Result<()> {
    ensure!(page.find_all("slider", "Volume").await?.is_empty(), "a caution before anything is heard");
    page.click("button", "Hear the note").await?;
    let heard = page.heard(1.6).await?;
    caution(page).await?;
    Page::contiguous(&heard)?;
    begins_softly(&heard)?;
    let tuned = heard.fundamental(G4, 0.3, 1.3);
    ensure!(cents(tuned, G4).abs() < 0.5, "as the tuning wants it {G4} Hz, heard {tuned}");
    // First the one, then the other: what the tube gives, then what the tuning wants.
    page.is_heard(false).await?;
    heard_as(page, "first the one, then the other").await?;
    page.click("button", "Hear the note").await?;
    let heard = page.heard(3.4).await?;
    Page::contiguous(&heard)?;
    let natural = CROOK * 10.0 / 4.0;
    let first = heard.fundamental(natural, 0.3, 1.3);
    ensure!(cents(first, natural).abs() < 0.5, "the partial is {natural} Hz, heard {first}");
    ensure!((cents(first, G4) + 13.686).abs() < 0.5, "{} cents against G4", cents(first, G4));
    let second = heard.fundamental(G4, 2.02, 3.02);
    ensure!(cents(second, G4).abs() < 0.5, "then {G4} Hz, heard {second}");
    // Another wish takes the place of the one before it, which would have gone on.
    page.is_heard(true).await?;
    page.heard_so_far().await?;
    page.click("button", "Hear the note").await?;
    ensure!(page.heard(0.6).await?.faded == 1, "what was heard before is faded out once");
    // More would come; it does not after "Stop".
    page.is_heard(true).await?;
    page.click("button", "Stop").await?;
    page.is_heard(false).await?;
    let ended = page.heard_so_far().await?;
    ensure!(ended.faded == 1, "it is faded out, not cut off");
    tokio::time::sleep(std::time::Duration::from_millis(600)).await;
    ensure!(page.heard_so_far().await?.samples.is_empty(), "sound goes on after \"Stop\"");
    Ok(())
}

/// As loud as can be, with everybody in it: no sample over the limiter's ceiling.
async fn loudest(page: &Page) -> Result<()> {
    turn_to(page, MANY, "4 Corni").await?;
    heard_as(page, "as the instrument gives it").await?;
    set_volume(page, "End", 1).await?;
    volume(page, "100").await?;
    page.click("button", "Hear the column").await?;
    let heard = page.heard(1.6).await?;
    Page::contiguous(&heard)?;
    begins_softly(&heard)?;
    let peak = heard.peak();
    ensure!(peak <= CEILING, "a sample of {peak} over the ceiling of {CEILING}");
    ensure!(peak > 0.5 * CEILING, "the limiter had nothing to do: {peak}");
    // The end is heard of by itself.
    page.is_heard(false).await
}

/// How loud the moment is in which the second column begins, against the moments before and after.
async fn dip(page: &Page, hash: &str) -> Result<f64> {
    page.set_hash(hash).await?;
    page.notes_are(&["written C5", if hash == HELD { "held" } else { "written C5" }]).await?;
    page.click("button", "Ways of hearing").await?;
    page.click("button", "Hear all").await?;
    // What was chosen in it shuts the sheet.
    page.find_gone("dialog", "Ways of hearing").await?;
    let heard = page.heard(1.4).await?;
    Page::contiguous(&heard)?;
    page.click("button", "Stop").await?;
    page.is_heard(false).await?;
    page.heard_so_far().await?;
    let quietest = (0..12).map(|at| heard.loudness(0.84 + 0.01 * f64::from(at), 0.86 + 0.01 * f64::from(at)));
    let around = heard.loudness(0.6, 0.8).min(heard.loudness(1.1, 1.3));
    Ok(quietest.fold(f64::INFINITY, f64::min) / around)
}

fn notes_are_heard_as_they_should_be() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(TENTH), async |page| {
        if page.browser() == Browser::Firefox {
            println!("skipped in Firefox: without a sound device its audio context never starts");
            return Ok(());
        }
        page.stand_in(LISTEN).await?;
        page.come_back(TENTH).await?;
        volume(page, "60").await?;
        pitch_of_a_note(page).await?;
        loudest(page).await?;
        let (held, struck) = (dip(page, HELD).await?, dip(page, STRUCK).await?);
        ensure!(held > 0.9, "a held note is struck anew: its loudness falls to {held}");
        ensure!(struck < 0.7, "a note that is struck anew is not heard as such: {struck}");
        // Volume and way are remembered.
        set_volume(page, "ArrowLeft", 13).await?;
        volume(page, "35").await?;
        page.reload().await?;
        volume(page, "35").await?;
        page.click("button", "Ways of hearing").await?;
        page.value_is("combobox", "Heard", "as the instrument gives it").await?;
        // Nothing plays before it is wanted.
        ensure!(page.heard_so_far().await?.samples.is_empty(), "sound without a wish");
        page.find("button", Name::Has("Hear all".into())).await?;
        Ok(())
    });
}
