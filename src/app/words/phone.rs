//! What this phone can and can't do for a bake, in honest words.

use domain::units::Minutes;
use platform::device::Device;
use platform::notify::Permission;
use platform::sound::SoundState;
use platform::wake_lock::WakeState;

/// Lets the alarm ring.
pub(crate) const TEST_ALARM: &str = "Test the alarm";
/// Asks for notifications.
pub(crate) const ASK_NOTIFY: &str = "Allow notifications";

/// The one promise, and what breaks it.
pub(crate) fn stay_open(device: &Device) -> &'static str {
    if device.ios {
        "Keep this page open and the phone unlocked: within seconds of locking, an iPhone or iPad stops the alarm until you are back."
    } else if device.android {
        "Keep this page open and the phone unlocked: a minute after you leave, Android may stop the alarm until you are back."
    } else {
        "Keep this page open and the screen on: in the background the alarm can be late."
    }
}

/// No page can find out whether it is in such a window.
pub(crate) const PRIVATE_WINDOW: &str =
    "A private window forgets everything when it is closed: bake in an ordinary one.";

/// What this phone lacks.
pub(crate) fn lacks(device: &Device) -> Vec<&'static str> {
    let mut lacks = Vec::new();
    if !device.can_vibrate {
        lacks.push("It can't vibrate for the alarm, so the alarm sounds and shows.");
    }
    if device.wants_less_motion {
        lacks
            .push("It is set to show less motion, so the alarm's colour stands and doesn't flash.");
    }
    if !device.can_work_offline {
        lacks
            .push("Opened at this address, Oventide can't work without a network: it needs https.");
    }
    lacks
}

/// What notifications are good for, as things stand.
pub(crate) fn notifications(permission: Permission, device: &Device) -> &'static str {
    match permission {
        Permission::Granted => {
            "Notifications are on: they help while the phone still lets the page run."
        }
        Permission::Denied => {
            "Notifications are off. Only the browser's settings for this page can change that."
        }
        Permission::NotAsked => {
            "A notification can call you while another app is open, for as long as the phone lets the page run."
        }
        Permission::Unsupported if device.ios && !device.standalone => {
            "Notifications need the app on the home screen: Share, then Add to Home Screen."
        }
        Permission::Unsupported => "This browser shows no notifications here.",
    }
}

/// Whether it works without a network.
pub(crate) fn offline(ready: bool) -> &'static str {
    if ready {
        "The whole app is on this phone: it works with no network."
    } else {
        "Not yet all on this phone: stay online a moment longer."
    }
}

/// What stands on the Bench while an alarm could be missed, the worst first; empty when all is well.
///
/// It takes room from what is asked, so it is short; Today says more.
pub(crate) fn alarm_could_be_missed(sound: SoundState, wake: &WakeState) -> &'static str {
    match (sound, wake) {
        (SoundState::NeedsTap, _) => "No sound until you touch the screen.",
        (SoundState::Unavailable, _) => "No sound here: watch for alarms.",
        (SoundState::Ready, WakeState::Unsupported | WakeState::Refused(_)) => {
            "Keep the screen on: this phone won't."
        }
        (SoundState::Ready, WakeState::Held | WakeState::Released) => "",
    }
}

/// The question when the clock has jumped.
pub(crate) const CLOCK_JUMPED: &str = "Was the clock changed?";
/// Yes.
pub(crate) const CLOCK_SET: &str = "Keep the time left";
/// No.
pub(crate) const TIME_PASSED: &str = "Keep the times of day";

/// What happened to the clock, and what the two answers mean.
pub(crate) fn clock_jumped(by: Minutes, unseen: bool) -> String {
    let at_least = if unseen { "at least " } else { "" };
    let by_how_much = format!("{at_least}{}", super::span(by));
    if by.get() < 0.0 {
        format!(
            "This phone's clock went back by {by_how_much}. The dough didn't: keep the time left, and every alarm moves back too. \
             Or keep the times of day, and all of them come {by_how_much} later."
        )
    } else {
        format!(
            "This phone's clock jumped forward by {by_how_much}. If it was set, keep the time left, and every alarm moves along. \
             If that time really passed, keep the times of day."
        )
    }
}
