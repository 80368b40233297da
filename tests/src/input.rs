//! Mouse, touch and keyboard. Places are in CSS pixels from the upper left corner of what is seen.

use crate::browser::Browser;
use crate::find::Name;
use crate::keys;
use crate::page::Page;
use crate::wait;
use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use std::path::Path;
use thirtyfour::WebElement;
use thirtyfour::common::command::{Actions, Command};

/// How long a finger rests before it is lifted.
const REST: std::time::Duration = std::time::Duration::from_millis(120);
const TOUCH: &str = include_str!("scripts/touch.js");

/// A place on the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// From the left, in CSS pixels.
    pub x: f64,
    /// From the top, in CSS pixels.
    pub y: f64,
}

impl Place {
    /// The place so far to the right and so far down from here, in CSS pixels.
    pub fn moved(self, right: f64, down: f64) -> Self {
        Self { x: self.x + right, y: self.y + down }
    }
}

/// The box that something takes up, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// The upper left corner.
    pub corner: Place,
    /// Width in CSS pixels.
    pub width: f64,
    /// Height in CSS pixels.
    pub height: f64,
}

impl Extent {
    /// The place at these shares of width and height: (0.5, 0.5) is the middle.
    pub fn at(self, right: f64, down: f64) -> Place {
        self.corner.moved(self.width * right, self.height * down)
    }

    /// The middle.
    pub fn middle(self) -> Place {
        self.at(0.5, 0.5)
    }
}

/// One finger's part in a touch.
#[derive(Clone, Copy)]
enum Finger {
    Down,
    Move,
    Up,
}

impl Page {
    /// The box that something takes up now, scrolled into view first.
    ///
    /// # Errors
    /// Where it has left the page.
    pub async fn extent(&self, element: &WebElement) -> Result<Extent> {
        let script = "const at = arguments[0]; at.scrollIntoView({ block: 'nearest', inline: 'nearest', behavior: 'instant' });
            const box = at.getBoundingClientRect(); return [box.x, box.y, box.width, box.height];";
        let sizes = self.eval(script, vec![element.to_json()?]).await?;
        let size = |at: usize| sizes[at].as_f64().context("the box has no size");
        Ok(Extent { corner: Place { x: size(0)?, y: size(1)? }, width: size(2)?, height: size(3)? })
    }

    /// Waits for the one thing of this role and name and clicks in its middle with the mouse.
    ///
    /// # Errors
    /// When it does not come.
    pub async fn click(&self, role: &str, name: impl Into<Name>) -> Result<()> {
        let middle = self.middle_of(role, name.into()).await?;
        self.click_at(middle).await
    }

    /// Waits for the one thing of this role and name and taps in its middle with a finger.
    ///
    /// # Errors
    /// When it does not come.
    pub async fn tap(&self, role: &str, name: impl Into<Name>) -> Result<()> {
        let middle = self.middle_of(role, name.into()).await?;
        self.tap_at(middle).await
    }

    /// Clicks with the mouse in the middle of something that was found before, one of several of its name, say. The driver's
    /// own click aims once, and misses where what stands above comes in between.
    ///
    /// # Errors
    /// Where it has left the page, or does not come to rest.
    pub async fn click_on(&self, element: &WebElement) -> Result<()> {
        let middle = self.middle_once_still(element).await?;
        self.click_at(middle).await
    }

    /// Taps with a finger in the middle of something that was found before.
    ///
    /// # Errors
    /// As [`Page::click_on`].
    pub async fn tap_on(&self, element: &WebElement) -> Result<()> {
        let middle = self.middle_once_still(element).await?;
        self.tap_at(middle).await
    }

    async fn middle_once_still(&self, element: &WebElement) -> Result<Place> {
        wait::until("what was found to stand still", async || self.standing(element).await.transpose()).await
    }

    /// The middle of the one thing of this role and name, also where the page draws it anew in between.
    async fn middle_of(&self, role: &str, name: Name) -> Result<Place> {
        wait::until(&format!("{role} {name} to stand still"), async || {
            let element = self.find(role, name.clone()).await?;
            // One that has left the page is looked for again.
            Ok(self.standing(&element).await.and_then(Result::ok))
        })
        .await
    }

    /// The middle of something; nothing while the page moves, or while what is meant cannot be pressed yet: a reader waits too.
    async fn standing(&self, element: &WebElement) -> Option<Result<Place>> {
        let looked = async {
            let waits = "return document.querySelector('[aria-busy=true]') !== null || arguments[0].matches(':disabled')";
            if self.eval(waits, vec![element.to_json()?]).await? == json!(true) {
                return Ok(None);
            }
            let first = self.extent(element).await?;
            // What was done before may still change the page with the next pictures.
            self.settled().await?;
            let second = self.extent(element).await?;
            Ok((first == second).then_some(first.middle()))
        };
        looked.await.transpose()
    }

    /// Moves the mouse there and clicks.
    ///
    /// # Errors
    /// Where the place is not in view.
    pub async fn click_at(&self, place: Place) -> Result<()> {
        self.mouse_down(place).await?;
        self.mouse_up(place).await
    }

    /// Moves the mouse there without a button.
    ///
    /// # Errors
    /// Where the place is not in view.
    pub async fn mouse_move(&self, place: Place) -> Result<()> {
        self.pointer("mouse", &[go(place)]).await
    }

    /// Moves the mouse there and presses its button.
    ///
    /// # Errors
    /// Where the place is not in view.
    pub async fn mouse_down(&self, place: Place) -> Result<()> {
        self.pointer("mouse", &[go(place), json!({ "type": "pointerDown", "button": 0 })]).await
    }

    /// Moves the mouse there and lets its button go.
    ///
    /// # Errors
    /// Where the place is not in view.
    pub async fn mouse_up(&self, place: Place) -> Result<()> {
        self.pointer("mouse", &[go(place), json!({ "type": "pointerUp", "button": 0 })]).await
    }

    /// Touches the page there and lets go. Real touch in Chromium and Firefox; WebKitGTK's driver has no finger, so
    /// there the page gets pointer events of a touch from a script.
    ///
    /// # Errors
    /// Where the place is not in view.
    pub async fn tap_at(&self, place: Place) -> Result<()> {
        if self.browser == Browser::Chromium {
            // With nothing in between, so that a busy machine does not turn the tap into a long press.
            self.old_enough().await?;
            self.chromium_touch("touchStart", &[finger_at(place)]).await?;
            return self.chromium_touch("touchEnd", &[]).await;
        }
        self.touch_down(place).await?;
        self.touch_up(place).await
    }

    /// Puts a finger there, moves it so far in one go, and lifts it.
    ///
    /// # Errors
    /// Where the place is not in view.
    pub async fn swipe(&self, from: Place, right: f64, down: f64) -> Result<()> {
        let steps = (1..=8).map(|step| f64::from(step) / 8.0);
        let places = steps.map(|share| from.moved(right * share, down * share));
        if self.browser == Browser::Chromium {
            // With nothing in between, so that a busy machine does not turn its beginning into a long press.
            self.old_enough().await?;
            self.chromium_touch("touchStart", &[finger_at(from)]).await?;
            for place in places {
                self.chromium_touch("touchMove", &[finger_at(place)]).await?;
            }
            self.lift(from.moved(right, down)).await?;
        } else {
            self.touch_down(from).await?;
            for place in places {
                self.touch_move(place).await?;
            }
            self.touch_up(from.moved(right, down)).await?;
        }
        self.settled().await
    }

    /// Puts a finger there; see [`Page::tap_at`].
    ///
    /// # Errors
    /// Where the place is not in view.
    pub async fn touch_down(&self, place: Place) -> Result<()> {
        self.touch(Finger::Down, place).await
    }

    /// Moves the finger there.
    ///
    /// # Errors
    /// Where no finger is down.
    pub async fn touch_move(&self, place: Place) -> Result<()> {
        self.touch(Finger::Move, place).await
    }

    /// Moves the finger there and lifts it.
    ///
    /// # Errors
    /// Where no finger is down.
    pub async fn touch_up(&self, place: Place) -> Result<()> {
        self.touch(Finger::Up, place).await
    }

    async fn touch(&self, finger: Finger, place: Place) -> Result<()> {
        match self.browser {
            Browser::Chromium => {
                self.old_enough().await?;
                let kind = match finger {
                    Finger::Down => "touchStart",
                    Finger::Move => "touchMove",
                    Finger::Up => {
                        // The finger goes there before it leaves, as in the other browsers.
                        return self.lift(place).await;
                    }
                };
                self.chromium_touch(kind, &[finger_at(place)]).await
            }
            Browser::WebKit => {
                let kind = match finger {
                    Finger::Down => "down",
                    Finger::Move => "move",
                    Finger::Up => "up",
                };
                self.eval(TOUCH, vec![json!(kind), json!(place.x), json!(place.y)]).await?;
                Ok(())
            }
            Browser::Firefox => {
                let mut steps = vec![go(place)];
                match finger {
                    Finger::Down => steps.push(json!({ "type": "pointerDown", "button": 0 })),
                    Finger::Move => {}
                    Finger::Up => steps.push(json!({ "type": "pointerUp", "button": 0 })),
                }
                self.pointer("touch", &steps).await
            }
        }
    }

    /// Waits until the page has lived for a moment. In its first half second Chromium now and then swallows the tap
    /// after a drag; no reader is that quick.
    async fn old_enough(&self) -> Result<()> {
        wait::until("the page to be old enough to be touched", async || {
            let age = self.eval("return performance.now()", vec![]).await?;
            Ok(age.as_f64().filter(|age| *age > 900.0).map(|_| ()))
        })
        .await
    }

    /// Lifts a finger that has come to rest: after one that leaves while it moves, Chromium takes the next tap for the
    /// end of a fling and gives the page no click.
    async fn lift(&self, place: Place) -> Result<()> {
        self.chromium_touch("touchMove", &[finger_at(place)]).await?;
        tokio::time::sleep(REST).await;
        self.chromium_touch("touchMove", &[finger_at(place)]).await?;
        self.chromium_touch("touchEnd", &[]).await
    }

    async fn chromium_touch(&self, kind: &str, points: &[Value]) -> Result<()> {
        self.cdp("Input.dispatchTouchEvent", json!({ "type": kind, "touchPoints": points })).await?;
        Ok(())
    }

    /// Presses one key, or several together: "ArrowUp", "e", "+", "Control+z", "Shift+Tab". Keys have the names that the
    /// web gives them.
    ///
    /// # Errors
    /// On a name that is no key.
    pub async fn press(&self, chord: &str) -> Result<()> {
        let keys = keys::chord(chord)?;
        let down = keys.iter().map(|key| json!({ "type": "keyDown", "value": key }));
        let up = keys.iter().rev().map(|key| json!({ "type": "keyUp", "value": key }));
        self.keys(&down.chain(up).collect::<Vec<_>>()).await
    }

    /// Types a text into whatever has the focus, key by key.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn write(&self, text: &str) -> Result<()> {
        let both = |key| ["keyDown", "keyUp"].map(|kind| json!({ "type": kind, "value": key }));
        self.keys(&text.chars().flat_map(both).collect::<Vec<_>>()).await
    }

    /// Waits for the one field of this role and name, empties it and types a text.
    ///
    /// # Errors
    /// When it does not come.
    pub async fn fill(&self, role: &str, name: impl Into<Name>, text: &str) -> Result<()> {
        let field = self.find(role, name).await?;
        self.eval("arguments[0].focus(); arguments[0].select?.()", vec![field.to_json()?]).await?;
        if text.is_empty() { self.press("Backspace").await } else { self.write(text).await }
    }

    /// Waits for the one field of this role and name and puts a text into it in the place of what is there, all of it at
    /// once, as a reader does who pastes it; no text at all takes away what is there.
    ///
    /// # Errors
    /// When it does not come, or the browser does not take the text.
    pub async fn paste(&self, role: &str, name: impl Into<Name>, text: &str) -> Result<()> {
        let field = self.find(role, name).await?;
        // The browser's own word for it enters one line after the other.
        let script = "const [at, text] = arguments; at.focus(); at.select();
            if (text.includes('\\n')) {
                at.value = text;
                return at.dispatchEvent(new InputEvent('input', { inputType: 'insertFromPaste', bubbles: true }));
            }
            return text ? document.execCommand('insertText', false, text) : document.execCommand('delete') || at.value === ''";
        let taken = self.eval(script, vec![field.to_json()?, json!(text)]).await?;
        ensure!(taken == json!(true), "the browser pasted nothing");
        Ok(())
    }

    /// Gives a file to the field for one that the page has.
    ///
    /// # Errors
    /// Where it has none, or there is no such file.
    pub async fn give_file(&self, file: &Path) -> Result<()> {
        let field =
            self.driver().execute("return document.querySelector('input[type=file]')", vec![]).await?;
        Ok(field.element()?.send_keys(std::path::absolute(file)?.to_string_lossy()).await?)
    }

    /// Puts the keyboard's focus on the one thing of this role and name, as a screen reader does.
    ///
    /// # Errors
    /// When it does not come.
    pub async fn focus(&self, role: &str, name: impl Into<Name>) -> Result<()> {
        let element = self.find(role, name).await?;
        self.eval("arguments[0].focus()", vec![element.to_json()?]).await?;
        Ok(())
    }

    async fn pointer(&self, kind: &str, steps: &[Value]) -> Result<()> {
        let source =
            json!({ "type": "pointer", "id": kind, "parameters": { "pointerType": kind }, "actions": steps });
        self.actions(&source).await
    }

    async fn keys(&self, steps: &[Value]) -> Result<()> {
        self.actions(&json!({ "type": "key", "id": "keyboard", "actions": steps })).await
    }

    async fn actions(&self, source: &Value) -> Result<()> {
        let actions = Actions::from(json!([source]));
        self.driver().cmd(Command::PerformActions(actions)).await.context("the driver did not act")?;
        Ok(())
    }
}

fn finger_at(place: Place) -> Value {
    json!({ "x": place.x, "y": place.y, "id": 1 })
}

fn go(place: Place) -> Value {
    let whole = |value: f64| value.round();
    json!({ "type": "pointerMove", "duration": 0, "origin": "viewport", "x": whole(place.x), "y": whole(place.y) })
}
