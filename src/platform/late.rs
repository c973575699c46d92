//! The half of the app's code that comes once the app can be used.
//!
//! Which functions that is, `xtask` decides when it divides the build (`xtask/split`); `boot.js` fetches it and
//! joins it to the first half. Nothing of it may be called before [`join`] has said that it is here.

use crate::events::window;
use crate::js;

/// What `boot.js` offers.
const JOIN: &str = "joinLate";

/// Fetches the late half, unless it is here or on its way; whether it is here now.
///
/// What could not be fetched is fetched anew by the next call.
pub async fn join() -> bool {
    js::call_and_wait(&window(), JOIN, &[]).await.is_ok()
}
