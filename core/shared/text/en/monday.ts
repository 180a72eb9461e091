/** The Monday page: what is worth doing this week, each with its number and reason. */
export const mondayTexts = {
  'monday.title': 'This week',
  'monday.note': 'What saves or brings most, worked out from the shop’s own book',
  'monday.print': 'Print the page',
  'monday.save': 'Save it as PDF',
  'monday.saved': 'Saved: {file}',

  'monday.kept': '{promises, plural, one {# promise} other {# promises}}',
  'monday.more': 'and {count} more',
  'monday.open': 'Go there',
  'monday.none': 'Nothing asks for a hand this week.',
  'monday.noneText':
    'Promises hold, nothing runs out before its day, nobody owes too long. This page fills from bookings, stock, quotes and invoices.',
  'monday.others': 'Further down',
  'monday.clear': 'Looked at, and all right',
  'monday.file': 'this-week-{day}',
  'monday.caution':
    'Sums are what hangs on a thing, not what is sure to come: agreed or quoted work with tax, or the usual job of the last months where nothing is agreed yet. A job that hangs on two things counts in both.',
  'monday.kind.promises': 'promises at risk',
  'monday.kind.padsToWash': 'pads to wash',
  'monday.kind.stockStops': 'stock that stops a job',
  'monday.kind.overdue': 'money overdue',
  'monday.kind.toBill': 'work not billed',
  'monday.kind.quotesLapse': 'quotes about to lapse',
  'monday.kind.idleBays': 'idle bays',
  'monday.kind.drift': 'estimates that drift',
  'monday.promises':
    '{count, plural, one {Save # promise that is not safe} other {Save # promises that are not safe}}',
  'monday.promises.why':
    'Each job’s sum times what its surest way out adds to the chance of being ready in time.',
  'monday.promises.technician':
    'Job {number}, {customer}, {at}: {now} sure, {best} with somebody else on the next stage. {worth}',
  'monday.promises.time':
    'Job {number}, {customer}, {at}: {now} sure, {best} at another time in the bay. {worth}',
  'monday.promises.wash':
    'Job {number}, {customer}, {at}: {now} sure, {best} with pads washed tonight. {worth}',
  'monday.promises.later':
    'Job {number}, {customer}, {at}: {now} sure. A later time agreed now would be {best} sure. {worth}',
  'monday.promises.call':
    'Job {number}, {customer}, {at}: {now} sure, and no way out on the board. Ring them first. {worth}',
  'monday.promises.untried':
    'Job {number}, {customer}, {at}: {now} sure. Only the soonest promises are tried out here; try this one on the board. {worth}',
  'monday.promises.passed':
    'Job {number}, {customer}: promised for {at}, and not ready. Ring them with another time. {worth}',
  'monday.promises.passedLater':
    'Job {number}, {customer}: promised for {at}, and not ready. A later time agreed now would be {best} sure. {worth}',
  'monday.promises.noWork':
    'Job {number}, {customer}, {at}: none of its work is on the board, so nobody can tell how sure it is. Place it first. {worth}',
  'monday.padsToWash':
    '{count, plural, one {Wash # kind of pads or towels} other {Wash # kinds of pads or towels}} before the day they lack',
  'monday.padsToWash.why': 'The sums of the jobs that would wait for clean pads or towels.',
  'monday.padsToWash.case': '{item}: {lacking} lacking on {day} for job {number}, {customer}',
  'monday.stockStops':
    '{items, plural, one {Order # thing} other {Order # things}} that {items, plural, one {stops} other {stop}} {jobs, plural, one {# job} other {# jobs}}',
  'monday.stockStops.why':
    'The sums of the booked jobs from the day it is used up until it could come by ordering later.',
  'monday.stockStops.case':
    '{item}, {packs, plural, one {# pack} other {# packs}} from {supplier}: used up on {day}; {jobs, plural, one {# job} other {# jobs}}, {worth}',
  'monday.overdue': '{count, plural, one {Ask for # invoice} other {Ask for # invoices}} past the due day',
  'monday.overdue.why': 'What is owed past its due day.',
  'monday.overdue.case':
    'Invoice {number}, {customer}: {owed}, {days, plural, one {# day} other {# days}} over',
  'monday.toBill': '{count, plural, one {Bill # job that is} other {Bill # jobs that are}} finished',
  'monday.toBill.why':
    'What was agreed for work that is done, less what was billed of it. A draft is no invoice yet.',
  'monday.toBill.case': 'Job {number}, {customer}: {worth}',
  'monday.quotesLapse':
    '{count, plural, one {Ring about # quote} other {Ring about # quotes}} before they lapse',
  'monday.quotesLapse.why':
    'Their {asked} times {share}: so many of the last {of, plural, one {# answered quote} other {# answered quotes}} were agreed to.',
  'monday.quotesLapse.case': 'Job {number}, {customer}: {worth}, open until {day}',
  'monday.quotesLapse.lapsed': 'Job {number}, {customer}: {worth}, lapsed on {day}',
  'monday.idleBays':
    'Fill {free} of free bay time in the coming 7 days; {count, plural, one {# request waits} other {# requests wait}}',
  'monday.idleBays.why':
    '{fills} that both are there for, at {perHour} that a bay hour brought lately after materials.',
  'monday.idleBays.case': 'Job {number}, {customer}: about {hours}, {worth}',
  'monday.drift':
    '{count, plural, one {Look at # stage} other {Look at # stages}} that {count, plural, one {takes} other {take}} longer than said',
  'monday.drift.why':
    '{over} more than said on work booked for the next 4 weeks, at {perHour} that an hour worked brought lately after materials.',
  'monday.drift.case': '{stage}: {over} over on the last {stages} stages; {ahead} booked ahead',
} as const;
