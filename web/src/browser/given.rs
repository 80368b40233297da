//! Files that the reader gives the page: chosen in a field, dropped on it, pasted into it, or opened with the app by the
//! operating system. Their bytes stay outside the app's memory; gloo would copy them into it. The last way is asked for by name,
//! since not every browser has it ("File Handling", W3C Web Incubator CG).

use crate::browser::{clipboard, owned};
use gloo_events::{EventListener, EventListenerOptions};
use gloo_utils::{document, window};
use js_sys::{Array, Function, Promise, Reflect, Uint8Array};
use leptos::task::spawn_local;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    ClipboardEvent, DataTransfer, DragEvent, Event, File, HtmlInputElement, HtmlTextAreaElement, Response,
};

/// Bytes of the largest file that is taken: more than any score has.
const LARGEST: f64 = 200_000_000.0;

/// The module that fetches the parts, which the page names; other files of this version stand beside it.
const PARTS: &str = "parts.js";

/// Bytes outside the app's memory.
#[derive(Clone, Debug)]
pub struct FileBytes(pub(super) Uint8Array);

impl FileBytes {
    /// How many.
    #[must_use]
    pub fn len(&self) -> u32 {
        self.0.length()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

/// A file that is there to be read.
#[derive(Clone, Debug)]
pub struct GivenFile(File);

/// A file: its name and its bytes.
#[derive(Clone, Debug)]
pub struct BroughtFile {
    /// Its name.
    pub name: String,
    /// What is in it.
    pub bytes: FileBytes,
}

/// What was dropped or pasted.
#[derive(Debug)]
pub enum Offered {
    /// A file, and how many came with it.
    File(GivenFile, u32),
    /// Text that looks like XML.
    Text(BroughtFile),
    /// Anything else.
    Nothing,
}

/// The file that was chosen in a field, which is emptied, so that the same can be chosen again.
pub fn chosen(event: &Event) -> Option<GivenFile> {
    let field: HtmlInputElement = event.target()?.dyn_into().ok()?;
    let file = field.files()?.get(0);
    field.set_value("");
    file.map(GivenFile)
}

/// Calls back with what is dropped or pasted anywhere in the page, as long as the part of it that asks is there. What is pasted
/// into a field that takes text stays the field's.
pub fn on_offered(brought: impl Fn(Offered) + Clone + 'static) {
    let listen = |name: &'static str, act: Box<dyn Fn(&Event)>| {
        let options = EventListenerOptions::enable_prevent_default();
        owned::keep(EventListener::new_with_options(&window(), name, options, move |event| act(event)));
    };
    listen("dragover", Box::new(Event::prevent_default));
    let dropped = brought.clone();
    listen(
        "drop",
        Box::new(move |event| {
            event.prevent_default();
            let data = event.unchecked_ref::<DragEvent>().data_transfer();
            dropped(data.map_or(Offered::Nothing, |data| of(&data)));
        }),
    );
    listen(
        "paste",
        Box::new(move |event| {
            let data = event.unchecked_ref::<ClipboardEvent>().clipboard_data();
            if let Some(data) = data.filter(|_| !takes_text(event)) {
                brought(of(&data));
            }
        }),
    );
}

/// Whether an event is that of a field which takes text. A field for a file takes none, and the focus stands there first.
fn takes_text(event: &Event) -> bool {
    let Some(target) = event.target() else { return false };
    let input = target.dyn_ref::<HtmlInputElement>().is_some_and(|input| input.type_() != "file");
    input || target.has_type::<HtmlTextAreaElement>()
}

/// What was copied before, where the reader lets the page have it; `None` where he or the browser does not.
pub async fn copied() -> Option<Offered> {
    let text = clipboard::text().await?;
    Some(of_copied(&text))
}

fn of(data: &DataTransfer) -> Offered {
    if let Some(files) = data.files()
        && let Some(file) = files.get(0)
    {
        return Offered::File(GivenFile(file), files.length() - 1);
    }
    of_copied(&data.get_data("text").unwrap_or_default())
}

fn of_copied(text: &str) -> Offered {
    if text.trim_start().starts_with('<') { Offered::Text(of_text("", text)) } else { Offered::Nothing }
}

/// A file of this name that was made here.
#[must_use]
pub fn of_text(name: &str, text: &str) -> BroughtFile {
    BroughtFile { name: name.to_owned(), bytes: FileBytes(Uint8Array::from(text.as_bytes())) }
}

/// What is in a file; `None` where it cannot be read or is larger than any score.
pub async fn read(GivenFile(file): GivenFile) -> Option<BroughtFile> {
    if file.size() > LARGEST {
        return None;
    }
    let buffer = JsFuture::from(file.array_buffer()).await.ok()?;
    Some(BroughtFile { name: file.name(), bytes: FileBytes(Uint8Array::new(&buffer)) })
}

/// The address of a file that came with this version of the app.
pub fn beside(name: &str) -> Option<String> {
    let link = document().query_selector(&format!("link[href$='{PARTS}']")).ok()??;
    Some(link.get_attribute("href")?.replace(PARTS, name))
}

/// A file that came with this version of the app.
pub async fn of_site(name: &str) -> Option<BroughtFile> {
    let asked = window().fetch_with_str(&beside(name)?);
    let response: Response = JsFuture::from(asked).await.ok()?.unchecked_into();
    if !response.ok() {
        return None;
    }
    let buffer = JsFuture::from(response.array_buffer().ok()?).await.ok()?;
    Some(BroughtFile { name: name.to_owned(), bytes: FileBytes(Uint8Array::new(&buffer)) })
}

/// Calls back with each file that the operating system opens with the installed app, those that wait already too.
pub fn on_opened_by_system(opened: impl Fn(GivenFile) + Clone + 'static) {
    let Ok(queue) = Reflect::get(&window(), &"launchQueue".into()) else { return };
    let Some(set) = Reflect::get(&queue, &"setConsumer".into()).ok().and_then(|set| set.dyn_into().ok())
    else {
        return;
    };
    let consumer = Closure::<dyn FnMut(JsValue)>::new(move |launch: JsValue| {
        let files =
            Reflect::get(&launch, &"files".into()).map(|files| Array::from(&files)).unwrap_or_default();
        let opened = opened.clone();
        spawn_local(async move {
            if let Some(file) = file_of(&files.get(0)).await {
                opened(GivenFile(file));
            }
        });
    });
    let set: Function = set;
    let _ = set.call1(&queue, consumer.as_ref());
    owned::keep(consumer);
}

/// The file of a handle that the operating system gives.
async fn file_of(handle: &JsValue) -> Option<File> {
    let get: Function = Reflect::get(handle, &"getFile".into()).ok()?.dyn_into().ok()?;
    let promise: Promise = get.call0(handle).ok()?.dyn_into().ok()?;
    JsFuture::from(promise).await.ok().map(JsCast::unchecked_into)
}
