//! Lengths of time as files write them, by the grammars of ISO 8601-1:2019 § 5.5.2 and RFC 5545 § 3.3.6.

use domain::units::duration::fits_a_calendar;
use domain::units::{Minutes, minutes};

#[test]
fn lengths_of_time_are_read() {
    for (text, expected) in [
        ("PT1H30M", 90.0),
        ("PT90M", 90.0),
        ("P1DT2H", 1_560.0),
        ("P2W", 20_160.0),
        ("-PT10M", -10.0),
        ("+PT10M", 10.0),
        ("PT36S", 0.6),
        ("PT0.5H", 30.0),
        ("PT0,5H", 30.0),
        ("PT1H30S", 60.5),
        ("P0D", 0.0),
    ] {
        assert_eq!(
            Minutes::from_iso8601(text),
            Some(minutes(expected)),
            "{text}"
        );
    }
}

#[test]
fn what_is_no_length_of_time_is_refused() {
    for text in [
        "",
        "P",
        "PT",
        "1H",
        "P1H",
        "PT1D",
        "P1M",
        "P1Y",
        "PT30M1H",
        "PT1H1H",
        "P1WT1H",
        "P1W2D",
        "PTH",
        "PT-5M",
        "PT1.5H30M",
        "P1DT",
        "PT1HT5M",
        "pt5m",
        "PT5M ",
        "PT5Mx",
        "PT99999999999H",
        "PTé5M",
    ] {
        assert_eq!(Minutes::from_iso8601(text), None, "{text}");
        assert!(!fits_a_calendar(text) || text.contains("999"), "{text}");
    }
}

#[test]
fn a_calendar_takes_less() {
    for text in [
        "PT1H30M",
        "PT1H0M30S",
        "P1DT2H",
        "P7W",
        "-PT10M",
        "PT30S",
        "P15DT5H0M20S",
    ] {
        assert!(fits_a_calendar(text), "{text}");
    }
    for text in ["PT0.5H", "PT1H30S", "P1M", "P1Y", "P1DT1H5S"] {
        assert!(!fits_a_calendar(text), "{text}");
    }
}
