/** Refusals that any command can give. What happened, what is safe, what to do. */
export const commonTexts = {
  'error.BAD_INPUT': '{field} does not fit: {problem}. Nothing was saved.',
  'problem.missing': 'it is missing',
  'problem.notText': 'it has to be text',
  'problem.notNumber': 'it has to be a number',
  'problem.notWhole': 'it has to be a whole number',
  'problem.notYesNo': 'it has to be yes or no',
  'problem.notList': 'it has to be a list',
  'problem.notRecord': 'it has to have named fields',
  'problem.notOneOf': 'it has to be one of {limit}',
  'problem.noChoice': 'none of the forms it may have fits',
  'problem.tooSmall': 'it has to be {limit, number} or more',
  'problem.tooBig': 'it has to be {limit, number} or less',
  'problem.empty': 'it is empty',
  'problem.tooShort': 'it needs at least {limit, plural, one {# letter} other {# letters}}',
  'problem.tooLong': 'it takes at most {limit, plural, one {# letter} other {# letters}}',
  'problem.tooFew': 'at least {limit, number} have to be named',
  'problem.tooMany': 'at most {limit, number} may be named',
  'problem.unknownField': 'nothing of that name is asked for',
  'problem.brokenText': 'it holds a sign that cannot be kept',
  'problem.unfit': 'it has another form than the one needed',
  'error.UNKNOWN_COMMAND': 'This program has no action called {name}. Nothing was done.',
  'error.NOT_FOUND': 'This {what} is not here any more. Look it up again.',
  'error.STALE':
    'Somebody else changed this {what} a moment ago. Yours is not saved yet: look at theirs, then save again.',
  'error.INTERNAL':
    'Something went wrong in the program itself. Nothing of this step was saved, what was there before is safe. Reference {reference}.',
  'error.WORKER_GONE':
    'The program’s working part stopped and is starting again. What it had confirmed is saved; this step may not be. Look, then try again.',
  'error.CANCELLED': 'Stopped, as asked. Nothing was changed.',
  'error.STORAGE':
    '{kind, select, busy {The data file is busy for the moment. Nothing is lost: try again.} full {The disk is full, so this was not saved. All that was saved before is safe. Free some space, then try again.} readonly {The data file can’t be written, so this was not saved. Check the rights of the data folder.} damaged {The data file does not read cleanly. The program has stopped writing, nothing was deleted. Go back to the newest good copy.} foreign {The data file was made by another program, or by a build of Rakelight that this one does not know. It was not touched.} newer {The data file was written by a newer Rakelight. It was not touched. Use the newer program.} other {The data file could not be used.}}',
  'error.SHOP_NOT_SET_UP': 'The shop is not set up yet. Do that first, then this works.',
} as const;
