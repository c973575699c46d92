//! Why the model has nothing to say about a topic.

/// What stands in a topic, and why it is skipped.
const REASONS: [(&str, &str); 17] = [
    (
        "line",
        "calendar files are written in the browser, and not by the model",
    ),
    (
        "TEXT",
        "calendar files are written in the browser, and not by the model",
    ),
    (
        "VEVENT",
        "calendar files are written in the browser, and not by the model",
    ),
    (
        "VCALENDAR",
        "calendar files are written in the browser, and not by the model",
    ),
    (
        "alarm",
        "calendar files are written in the browser, and not by the model",
    ),
    (
        "fold =",
        "calendar files are written in the browser, and not by the model",
    ),
    ("elapsed", "time zones are the browser's"),
    (
        "core temperature",
        "every formula states its own core temperature",
    ),
    ("dies", "the model leaves the death of yeast out"),
    (
        "Tmin range",
        "the model rests on one minimum, and not on a range of them",
    ),
    ("yeast count", "the model leaves the growth of yeast out"),
    (
        "osmotic",
        "the model has sugar by its share of the flour, and leaves the water it is dissolved in out",
    ),
    ("CO2 held", "the model leaves open where the gas goes"),
    (
        "convection in gases",
        "a textbook's range, and the model rests on values of its own within it",
    ),
    (
        "(weight) loss",
        "a loss is what somebody states, and the model rests on none",
    ),
    (
        "coagulat",
        "a plain fact about egg that a formula's steps say in words",
    ),
    (
        "custard",
        "a plain fact about egg that a formula's steps say in words",
    ),
];

pub(super) fn why_not(topic: &str) -> String {
    let known = REASONS.iter().find(|(word, _)| topic.contains(word));
    known
        .map_or(
            "a plain fact that no part of the model rests on",
            |(_, why)| why,
        )
        .to_owned()
}
