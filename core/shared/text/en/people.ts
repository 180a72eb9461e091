/** Customers, vehicles, people of the shop. */
export const peopleTexts = {
  'error.NAME_MISSING':
    '{what, select, customer {The customer needs a name} person {The person needs a name} shop {The shop needs a name} tax {The tax needs the name that is printed} other {It needs a name}}; a first name or a nickname will do.',
  'error.NAME_TOO_LONG':
    'A name may have up to {most} letters; this one has {has}. Shorten it and put the rest in the note.',
  'error.EMAIL_UNREADABLE':
    '{email} does not look like an e-mail address. Correct it or leave it empty; none is needed.',
  'error.YEAR_UNLIKELY':
    'A vehicle of {year}? Years go from 1886 to {latest}. Leave it empty if nobody knows.',
  'error.CUSTOMER_BUSY':
    '{jobs, plural, =0 {Money is still owed by {name}} one {A job of {name} is still open} other {# jobs of {name} are still open}}. Finish that first, then the details can be removed.',
  'error.CUSTOMER_ERASED':
    'This customer’s details were removed and can’t be changed. Add the customer again if they are back.',
} as const;
