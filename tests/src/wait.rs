//! Waiting until something is so, looking again and again; never for a fixed time.

use anyhow::{Result, bail};
use std::time::{Duration, Instant};

/// How long something may take before a flow fails. Generous, since two slow cores may run it beside eight busy processes;
/// a passing flow never waits this long.
pub const PATIENCE: Duration = Duration::from_secs(60);
/// How long between two looks at least. A look that took longer is followed by as long a rest, so that looking leaves half
/// of the time to what is waited for.
const GLANCE: Duration = Duration::from_millis(40);

/// Looks until there is an answer.
///
/// # Errors
/// When there is none within [`PATIENCE`]; the sentence says what was waited for. An error of the look itself is
/// returned at once.
pub async fn until<T>(what: &str, mut look: impl AsyncFnMut() -> Result<Option<T>>) -> Result<T> {
    let start = Instant::now();
    loop {
        let look_began = Instant::now();
        if let Some(answer) = look().await? {
            return Ok(answer);
        }
        if start.elapsed() > PATIENCE {
            bail!("waited {} s in vain: {what}", PATIENCE.as_secs());
        }
        tokio::time::sleep(GLANCE.max(look_began.elapsed())).await;
    }
}
