/** Who is here, and what they may do. */
export const accessTexts = {
  'error.NOT_ALLOWED':
    'This is for {needs, select, owner {the owner} desk {the front desk} other {a technician}}. {has, select, nobody {Say who you are first.} other {Ask somebody who may, or change who is here.}}',
  'error.SESSION_ENDED': 'Nobody is signed in here any more. Pick your name again; nothing is lost.',
  'error.PIN_SHAPE': 'A PIN is 4 to 12 digits, nothing else. Nothing was changed.',
  'error.LAST_OWNER':
    '{name} is the only owner. Make somebody else an owner first; otherwise nobody could change people, rates or rules.',
  'error.PERSON_NAME_TAKEN':
    'There is a {name} here already. Add an initial, so that everybody can tell the two apart.',
  'error.PERSON_ENDED':
    '{name} left the shop on {day} and can’t be changed or signed in. Add the person again if they are back.',
  'error.PERSON_NOT_BEGUN': '{name} begins in the shop on {day} and can be signed in from then on.',
  'error.ENDS_BEFORE_START': '{name} started on {started}; the last day can’t be before that.',
  'error.HOUR_COST_FAR':
    'An hour of {name} at {hourMinor}, with {nearMinor} standing beside it: a digit may be wrong. Nothing was changed.',
  'error.HOUR_COST_DAY':
    'An hour of {name} can cost something from {startedOnDay} on, the first day here or at work, and be said until {latestOnDay}. Nothing was changed.',
  'access.title': 'Who is here?',
  'access.now': '{name} is at this window',
  'access.lapsed': 'Signed out after some hours. Say who you are, and go on where you were.',
  'access.stay': 'Stay as you are',
  'access.nobody': 'Nobody works here yet.',
  'access.nobodyText': 'The owner adds people under Shop.',
  'access.hasPin': 'PIN',
  'access.pinOf': 'PIN of {name}',
  'access.enter': 'That’s me',
  'access.other': 'Somebody else',
  'access.leave': '{name} goes: sign out',
  'access.wrong': 'That PIN does not fit. {triesLeft, plural, one {One more try.} other {# more tries.}}',
  'access.wait':
    'Too many wrong PINs. Wait {seconds, plural, one {# second} other {# seconds}}, then try again.',
  'access.notYours': 'Not open to you',
  'access.needs.technician': 'This is for people of the shop.',
  'access.needs.desk': 'This is for the desk and the owner.',
  'access.needs.owner': 'This is for the owner.',
  'access.hereAs': '{name} is here as {role}. Nothing is lost; your own work is under Desk, Bays and Jobs.',
  'access.somebodyElse': 'Sign in as somebody else',
  'access.today': 'To today’s work',
  'access.cost': 'What an hour costs the shop',
  'access.cost.note': 'only owners see this',
  'access.cost.none': 'Nothing said yet: hours of {name} count as hours in the figures, not as money.',
  'access.cost.hour': 'cost of an hour',
  'access.cost.from': 'from',
  'access.cost.fromNote': 'also a past day: figures of then are worked out anew',
  'access.cost.now': 'now',
  'access.cost.later': 'later',
  'access.cost.amount': 'cost',
  'access.cost.add': 'Say it from this day on',
  'access.cost.change': 'Say it anew for this day',
  'access.cost.needs': 'Say what an hour costs.',
  'access.cost.needsDay': 'Say from which day.',
  'access.cost.drop': 'Take away',
  'access.cost.dropOf': 'Take away what holds from {day}',
  'access.cost.meant': 'It is meant: keep it',
  'access.cost.caution':
    'Pay with all that the shop pays on top of it, by the hour worked on cars. What belongs in it, and who may see it, is for whoever does your payroll and for local law.',
} as const;
