//! Question about calendar files.

use domain::units::Moment;
use records::calendar::{Event, calendar};
use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
pub(crate) struct Calendar {
    name: String,
    written_ms: i64,
    events: Vec<EventInputs>,
}

#[derive(Deserialize)]
struct EventInputs {
    id: String,
    start_ms: i64,
    end_ms: i64,
    title: String,
    note: String,
}

impl Calendar {
    pub(crate) fn answer(&self) -> Value {
        let event = |inputs: &EventInputs| Event {
            id: inputs.id.clone(),
            start: Moment::from_epoch_ms(inputs.start_ms),
            end: Moment::from_epoch_ms(inputs.end_ms),
            title: inputs.title.clone(),
            note: inputs.note.clone(),
        };
        let events: Vec<Event> = self.events.iter().map(event).collect();
        let written = Moment::from_epoch_ms(self.written_ms);
        json!(calendar(&self.name, &events, written))
    }
}
