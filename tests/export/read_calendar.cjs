// Reads an iCalendar file with ical.js and prints, as JSON, every event with its occurrences as this library sees them.
"use strict";

const fs = require("fs");
const loaded = require("ical.js");
const ICAL = loaded.default || loaded;

const MOST_OCCURRENCES = 500;

/** A moment as text: a day for whole days, UTC where the zone is known, else local time as it is written. */
function written(time) {
  if (time.isDate || time.zone === ICAL.Timezone.localTimezone) return time.toString();
  return time.convertToZone(ICAL.Timezone.utcTimezone).toString();
}

function occurrences(event) {
  const found = [];
  const iterator = event.iterator();
  for (let next = iterator.next(); next && found.length < MOST_OCCURRENCES; next = iterator.next()) {
    found.push(written(next));
  }
  return found;
}

function described(component) {
  const event = new ICAL.Event(component);
  return {
    uid: event.uid,
    sequence: event.sequence,
    summary: event.summary,
    start: written(event.startDate),
    end: written(event.endDate),
    stamp: written(component.getFirstPropertyValue("dtstamp")),
    occurrences: event.isRecurring() ? occurrences(event) : [written(event.startDate)],
    alarms: component
      .getAllSubcomponents("valarm")
      .map((alarm) => alarm.getFirstPropertyValue("trigger").toSeconds()),
  };
}

const calendar = new ICAL.Component(ICAL.parse(fs.readFileSync(process.argv[2], "utf8")));
for (const zone of calendar.getAllSubcomponents("vtimezone")) {
  ICAL.TimezoneService.register(new ICAL.Timezone(zone));
}
console.log(JSON.stringify(calendar.getAllSubcomponents("vevent").map(described)));
