/** Partial invoices: what is done so far is billed, the invoice at the end bills the rest. */
export const partialTexts = {
  'error.PARTIAL_AHEAD_OF_WORK':
    'This bills more of job {job} than its finished stages{here, select, true {} other {, and its car is not even here}}. For money in advance take a deposit. Nothing was issued: lower the shares, wait until the work is done, or issue it knowing that.',
  'error.PARTIAL_NOT_AGREED':
    'A partial invoice bills part of what was agreed, and no quote is agreed for this job. Agree one first, or bill the work when it is done.',
  'error.PARTIAL_DRAFTED':
    'A partial invoice of this job is drafted and waits. Issue it or remove it first. Nothing was drafted.',
  'error.PARTIAL_NOTHING':
    'Nothing is left to bill up to these shares: it was billed before. Raise a share, or finish a stage. Nothing was drafted.',
  'error.PARTIAL_LINES':
    'The lines of a partial invoice follow from the agreed ones, so that no part is billed twice. Remove the draft and make it anew with other shares. Nothing was kept.',
  'error.PARTIAL_REQUOTED':
    'The customer agreed to another quote since this was drafted. Remove the draft and make the partial invoice anew. Nothing was issued.',
  'error.PARTIAL_ABOVE_LINE':
    'Of “{text}” only {leftMinor} is left to bill: the rest was billed since this was drafted. Remove the draft and make it anew. Nothing was issued.',
  'error.PARTIALS_ABOVE':
    'What was billed before is {aboveMinor} above all that this comes to. Money that goes back goes by a credit note: credit {aboveMinor} of partial invoice {number} first. Nothing was issued.',
  'error.COLLECTIVE_PARTIAL':
    'Job {number} has a partial invoice, which comes off that job’s own invoice. Take the job out and bill its rest by itself. Nothing was drafted.',

  'error.PARTIAL_PREPAID':
    'A deposit invoice comes off the final invoice, so that only {leftMinor} is left for partial invoices. Lower the shares. Nothing was drafted.',

  'billing.billedLine': 'Billed before, partial invoice {number} of {day}',
  'billing.partLine': '{text}: {share} of it',
  'billing.partMoreLine': '{text}: {share} of it, {before} billed before',

  'invoice.title.partial': 'Partial invoice',
  'invoice.title.final': 'Final invoice',
  'money.kind.partial': 'partial',
  'money.toBillRest': '{amount} billed before',
  'statement.what.partial': 'Partial invoice {number}',
  'journal.billing.draftPartial': 'drafted a partial invoice: {what}',
  'journal.thing.partial': 'partial invoice {number} ({name})',

  'partial.title': 'Partial invoice',
  'partial.head': 'job {job}, {vehicle}, billed to {payer}',
  'partial.intro':
    'What is done so far is billed now. The final invoice bills the rest and takes this off again.',
  'partial.line': 'What was agreed',
  'partial.whole': 'in all',
  'partial.billed': 'billed before',
  'partial.share': 'billed up to',
  'partial.doneHint': '{share} done',
  'partial.follows': 'follows the lines',
  'partial.now': 'now',
  'partial.amounts':
    '{tax, select, with {All amounts are with tax.} other {The lines are before tax, the sums beside them with tax.}}',
  'partial.byStages': 'Back to what the stages say',
  'partial.byStagesNow': 'Proposed by the stages that are finished.',
  'partial.sayShare': 'Say a share first',
  'partial.toJob': 'To the job',
  'partial.all': 'All lines up to',
  'partial.allSet': 'Set all lines',
  'partial.sums': 'What it comes to, with tax',
  'partial.sumWhole': 'Agreed in all',
  'partial.sumBefore': 'Partial invoice {number}, {day}',
  'partial.sumNow': 'This partial invoice',
  'partial.sumRest': 'Rest for the final invoice',
  'partial.ahead': 'At least one line is above what is finished of it. Issuing this will ask you once more.',
  'partial.none': 'Nothing more is finished than was billed. Finish a stage, or raise a share.',
  'partial.draft': 'Draft the partial invoice',
  'partial.draftNote': 'It can be looked at, and gets its number when it is issued.',
  'partial.waits': 'A partial invoice of this job is drafted and waits to be issued.',
  'partial.toDraft': 'Open the draft',
  'partial.caution':
    'Whether part of the work may be billed before the end, and when its tax is due, is a matter of contract and local law: ask the shop’s adviser.',
  'partial.nth':
    'This is the {nth, selectordinal, one {#st} two {#nd} few {#rd} other {#th}} partial invoice of its job. {rest} stays for the final invoice.',
  'partial.before': 'Billed in parts',
  'partial.beforeLine': 'Partial invoice {number} of {day}',
  'partial.above': 'Billed too much',
  'partial.aboveText':
    'The partial invoices are {amount} above all that the work comes to. Give that back by a credit note first; then this one can be issued.',
  'partial.creditOn': 'Credit note on partial invoice {number}',
  'partial.creditByHand': 'Open the partial invoices below and credit them there.',
  'partial.creditNow': '{n, plural, one {Write the credit note} other {Write the credit notes}}',
} as const;
