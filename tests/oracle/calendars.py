"""Topic about calendar files: read with the library `icalendar`, and line by line against RFC 5545."""

import re
from datetime import UTC, datetime, timedelta

import icalendar

from topic import Topic

EVENT = {"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION"}
# Letters of one to four bytes, what has a meaning in the format, and line ends; no backslash, for the
# library takes an escaped one before an n for a line end. The native checks have it.
LETTERS = "abc XYZ 123 äöüß ½ °C — “bun” 面包 🥐 , ; : \" \n\tE,;N"


def text_of(random, longest):
    return "".join(random.choice(LETTERS) for _ in range(random.randrange(longest)))


def moment(milliseconds):
    """A file has whole seconds."""
    return datetime.fromtimestamp(milliseconds // 1000, UTC)


def of_form(text):
    """What the RFC says of every line: CRLF, at most 75 octets, no controls, a name and a colon."""
    raw = text.encode()
    assert raw.endswith(b"\r\n") and b"\n" not in raw.replace(b"\r\n", b"")
    lines = raw.split(b"\r\n")[:-1]
    assert max(map(len, lines)) <= 75
    for line in lines:
        # Folded between letters: every line is text by itself.
        assert not re.search(r"[\x00-\x08\x0a-\x1f\x7f]", line.decode())
    unfolded = re.sub(rb"\r\n[ \t]", b"", raw).decode().split("\r\n")[:-1]
    assert all(re.match(r"[A-Z-]+[:;]", line) for line in unfolded)


class Calendars(Topic):
    name = "calendar files (icalendar, RFC 5545)"
    topic = "calendar"
    # A file says what it was told, or it doesn't.
    tolerance = 0.0

    def case(self, random):
        events = []
        for nth in range(random.randrange(6)):
            start = random.randrange(0, 4_102_444_800_000)
            length = random.choice([0, 1, 60_000, random.randrange(10**8)])
            events.append({
                "id": f"bake-{nth}@oventide",
                "start_ms": start,
                "end_ms": start + length,
                "title": text_of(random, 120),
                "note": text_of(random, 400),
            })
        return {
            "name": text_of(random, 60),
            "written_ms": random.randrange(0, 4_102_444_800_000),
            "events": events,
        }

    def check(self, inputs, answer):
        of_form(answer)
        calendar = icalendar.Calendar.from_ical(answer)
        assert not calendar.errors and calendar["VERSION"] == "2.0" and calendar["PRODID"]
        assert str(calendar["X-WR-CALNAME"]) == inputs["name"]
        events = calendar.walk("VEVENT")
        assert len(events) == len(inputs["events"])
        return float(any(map(self.differs, events, inputs["events"], [inputs] * len(events))))

    def differs(self, event, told, inputs):
        assert not event.errors and set(event) <= EVENT
        assert event.decoded("UID").decode() == told["id"]
        assert event.decoded("DTSTAMP") == moment(inputs["written_ms"])
        start, end = moment(told["start_ms"]), moment(told["end_ms"])
        assert event.decoded("DTSTART") == start
        assert ("DTEND" in event) == (end > start)
        assert end == start or event.decoded("DTEND") == end
        alarms = event.walk("VALARM")
        # What some calendars read no further than has to come last.
        assert event.subcomponents == alarms
        assert [alarm.decoded("TRIGGER") for alarm in alarms] == [timedelta(minutes=-1), timedelta()]
        assert all(str(alarm["ACTION"]) == "DISPLAY" and "DESCRIPTION" in alarm for alarm in alarms)
        same = str(event["SUMMARY"]) == told["title"] and str(event.get("DESCRIPTION", "")) == told["note"]
        return not same


TOPICS = [Calendars()]
