//! Notes named in English, in German and by syllables, everywhere at once, also for the ear; and the link as a code that a
//! camera reads.

use anyhow::{Context, Result, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::passage::EIGHT;
use crookwise_tests::wait;
use crookwise_tests::window::Window;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![notes_are_named_in_three_ways, a_camera_reads_the_link];

/// Horns in B-flat with a violin: B-flat and B natural, written and sounding.
const PAGE: &str = "/read?staff=Corni+in+B&notes=C5.B4&staff=Violino&notes=Bb4.B4&key=Bb+major&at=1";
const CODE: &str = "The link as a code for a camera";
const NO_CODE: &str = "This is too long for a code that a camera reads from afar";

/// What the browser itself tells a screen reader of the first note of the horns.
async fn spoken(page: &Page, wanted: &str) -> Result<()> {
    wait::until(wanted, async || {
        let script = "return document.getElementById('note-0-0-0')";
        let note = page.driver().execute(script, vec![]).await?.element()?;
        let (_, name) = page.spoken(&note).await?;
        Ok(name.starts_with(wanted).then_some(()))
    })
    .await
}

/// In the settings; they are shut again, since what they stand over is hidden from a screen reader.
async fn call_notes(page: &Page, names: &str) -> Result<()> {
    page.click("button", "Settings").await?;
    page.choose("Names of notes", names).await?;
    page.press("Escape").await?;
    page.find_gone("dialog", "Settings").await
}

async fn three_ways(page: &Page) -> Result<()> {
    spoken(page, "written C5, sounds B-flat 3").await?;
    call_notes(page, "German: B, H").await?;
    spoken(page, "written C5, sounds B 3").await?;
    page.sees("B major").await?;
    page.find("button", Name::Has("written H4, sounds H4".into())).await?;
    call_notes(page, "Syllables: si♭, si").await?;
    spoken(page, "written Do5, sounds Si flat 3").await?;
    page.reload().await?;
    spoken(page, "written Do5, sounds Si flat 3").await.context("after a reload")
}

/// What a camera makes of the code on the screen: a picture of it is taken and read.
pub(crate) async fn seen_by_a_camera(page: &Page) -> Result<String> {
    let code = page.find("img", CODE).await?;
    page.extent(&code).await?;
    page.settled().await?;
    let bytes = code.screenshot_as_png().await?;
    let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info()?;
    let mut dots = vec![0; reader.output_buffer_size().context("no picture")?];
    let info = reader.next_frame(&mut dots)?;
    let step = info.color_type.samples();
    let (width, height) = (info.width as usize, info.height as usize);
    let mut picture =
        rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| dots[(y * width + x) * step]);
    let found = picture.detect_grids();
    ensure!(found.len() == 1, "{} codes in the picture", found.len());
    let (code, link) = found[0].decode()?;
    // A larger one is not read from the back of a classroom.
    ensure!(code.version.0 <= 10, "a code of version {}", code.version.0);
    Ok(link)
}

async fn code_is_the_link(page: &Page) -> Result<()> {
    wait::until("the code of the link", async || {
        let link = page.value("textbox", "A link to exactly this page").await?;
        Ok((seen_by_a_camera(page).await? == link).then_some(()))
    })
    .await
}

/// The same for a link that was packed, which is shorter than what it stands for. Its capitals and digits take less room
/// in a code than other letters: the size of the code counts, and not theirs.
async fn packed_code_is_the_link(page: &Page) -> Result<()> {
    wait::until("a packed link", async || {
        let link = page.value("textbox", "A link to exactly this page").await?;
        Ok((link.contains("/read?v=3.") && link.len() < page.hash().await?.len()).then_some(()))
    })
    .await?;
    code_is_the_link(page).await
}

/// Eight staves of notes that follow no rule.
fn more_than_a_code_holds() -> String {
    let mut seed = 1_usize;
    let mut note = || {
        seed = seed * 16_807 % 2_147_483_647;
        ["C4", "Fs5", "Bb3", "G4", "Ab5", "D3", "E4", "B5", "F3", "Cs5", "A4"][seed % 11]
    };
    let mut staff = || {
        let notes: Vec<&str> = (0..32).map(|_| note()).collect();
        format!("staff=Corno+in+Es&notes={}", notes.join("."))
    };
    let staves: Vec<String> = (0..8).map(|_| staff()).collect();
    format!("/read?{}", staves.join("&"))
}

fn notes_are_named_in_three_ways() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(PAGE), three_ways);
}

fn a_camera_reads_the_link() {
    // The other browser gives no sharp picture of a part of the page; the code is the same there.
    flow::in_browser(
        Browser::Chromium,
        &Setup::new(Window::PORTRAIT).hash("/read?staff=Corni+in+Es&notes=E5&at=1"),
        async |page| {
            page.click("button", "Share").await?;
            code_is_the_link(page).await?;
            // As long as may be: a label that fills the link to the last byte, and one byte more.
            let link = page.value("textbox", "A link to exactly this page").await?;
            ensure!(link.len() <= 213, "{} bytes", link.len());
            // What stands over the page keeps it from everybody's reach: it is shut before the label is written.
            page.press("Escape").await?;
            let label = format!("Corni in Es{}", "x".repeat(213 - link.len()));
            page.fill("textbox", "What the score prints", &label).await?;
            page.click("button", "Share").await?;
            wait::until("a link of 213 bytes", async || {
                Ok((page.value("textbox", "A link to exactly this page").await?.len() == 213).then_some(()))
            })
            .await?;
            code_is_the_link(page).await?;
            page.press("Escape").await?;
            page.focus("textbox", "What the score prints").await?;
            page.press("End").await?;
            page.write("x").await?;
            page.click("button", "Share").await?;
            packed_code_is_the_link(page).await?;
            // Another page in the address shuts what stands over the one before.
            page.set_hash(EIGHT).await?;
            page.find_gone("dialog", "Share").await?;
            page.click("button", "Share").await?;
            packed_code_is_the_link(page).await?;
            // More than any code holds: the reader shares what fits, or all of it without a code.
            page.set_hash(&more_than_a_code_holds()).await?;
            page.find_gone("dialog", "Share").await?;
            page.click("button", "Share").await?;
            page.sees(NO_CODE).await?;
            page.find_gone("img", CODE).await?;
            page.click("button", Name::Has("Share the first ".into())).await?;
            packed_code_is_the_link(page).await?;
            page.click("button", "Share all columns").await?;
            page.sees(NO_CODE).await
        },
    );
}
