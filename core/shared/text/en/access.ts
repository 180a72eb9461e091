/** Who is here, and what they may do. */
export const accessTexts = {
  'error.NOT_ALLOWED':
    'This is for {needs, select, owner {the owner} desk {the front desk} other {a technician}}. {has, select, nobody {Say who you are first.} other {Ask somebody who may, or change who is here.}}',
  'error.PIN_WRONG':
    'That PIN does not fit. {triesLeft, plural, =0 {No tries left for the moment.} one {One more try.} other {# more tries.}}',
  'error.PIN_WAIT':
    'Too many wrong PINs. Wait {seconds, plural, one {# second} other {# seconds}}, then try again.',
  'error.SESSION_ENDED': 'Nobody is signed in here any more. Pick your name again; nothing is lost.',
} as const;
