/** What breaks a rule of the program in a shop file, one sentence for each rule. */
export const doctorTexts = {
  'doctor.file.whole': 'the file does not read cleanly: {detail}',
  'doctor.file.references': '{table} row {row} names a {parent} that is not there',
  'doctor.journal.order':
    'journal line {line} is older than the line before it (the clock of the computer went back)',
  'doctor.pictures.whole':
    'the picture {hash} of job {job} {state, select, gone {is not on the disk} other {is spoiled on the disk}}; a copy may still hold it',
  'doctor.sheets.whole':
    'the safety data sheet of {item} {state, select, gone {is not on the disk} other {is spoiled on the disk}}; a copy may still hold it',
  'doctor.logo.whole':
    'the logo file {hash} {state, select, gone {is not on the disk} other {is spoiled on the disk}}; a copy may still hold it',
  'doctor.pictures.named':
    'the picture file {name} belongs to no record; it takes up space and harms nothing',
  'doctor.job.dates': 'job {job} is “{jobState}” without the date of it',
  'doctor.job.stages': 'job {job} has ended, but its stage “{stage}” is still open',
  'doctor.work.closed': 'job {job}: a clock still runs on its finished stage “{stage}”',
  'doctor.plan.rules':
    '{what, select, cars {jobs {a} and {b} both stand in {where} at one time} works {{where} works on jobs {a} and {b} at one time} other {the plan of job {job} breaks a rule: {rule, select, noPlace {the car stands nowhere for a while} bayKind {a stage is in a bay of the wrong kind} pieceOutsideStay {a stage is planned while the car is elsewhere} stageOrder {stages stand in the wrong order} other {a waiting time is cut short}}}}',
  'doctor.stock.level':
    '{item}: {onHand, number} on hand worth {worthMinor, number}, the ledger sums to {booked, number} worth {bookedMinor, number} (base units, smallest coin)',
  'doctor.stock.containers':
    '{item}: the container opened {openedDay} has no reading, or one beside a line of another item',
  'doctor.stock.nothingLeft': '{item}: nothing on hand, but a value of {worthMinor, number} (smallest coin)',
  'doctor.pads.pieces':
    '{item}: {pieces, number} pieces of a batch are {state, select, clean {clean} dirty {dirty} washing {in the wash} other {{state}}}',
  'doctor.invoice.figures':
    'document {document}: {what, select, net {its net} tax {its tax} sum {what is to pay} other {what it asks for}} is {kept, number}, its lines give {again, number} (smallest coin)',
  'doctor.invoice.numbers': 'document {document}: the number before it is missing',
  'doctor.invoice.tax': 'document {document}: its tax rows do not sum to its tax',
  'doctor.payment.used': 'payment {receipt} settles more than its amount',
  'doctor.voucher.balance':
    'voucher {number}: its entries leave {kept, number}, the money held for it is {held, number} (smallest coin)',
  'doctor.figures.kept':
    'what is kept of {day} is not what its records come to: {what, select, hours {the hours of bays and people} honesty {estimated against actual} other {the stages furthest from their estimate}}',
  'doctor.voucher.letGo':
    'voucher {number}: {day, select, none {more was held again than was let go} other {money was let go on {day}, when it was still taken}}',
  'doctor.voucher.day':
    'voucher {number}: what it says of document {document} is dated {day}, the document {issued}',
  'doctor.voucher.net':
    'voucher {number}: {net, number} before tax are held for {kept, number} with tax (smallest coin)',
  'doctor.document.rest':
    'document {document}: {kept, number} is kept as left to pay, its payments and credit notes leave {again, number} (smallest coin)',
  'doctor.billed.share': 'job {job}: another share of its work is kept as billed than its documents bill',
  'doctor.job.unbilled':
    'job {job}: whether its work waits for an invoice is kept otherwise than its documents say',
  'doctor.collective.net':
    'document {document}: {kept, number} is kept as the part of one of its jobs before tax, its lines give {again, number} (smallest coin)',
  'doctor.job.net':
    'job {job}: {kept, number} is kept as billed before tax, its documents sum to {again, number} (smallest coin)',
  'doctor.job.drawn':
    'job {job}: {kept, number} is kept as its material, the stock ledger sums to {again, number} (smallest coin)',
  'doctor.job.uses':
    'job {job}: {kept, number} uses of pads or towels of one item are kept, {again, number} were booked',
  'doctor.job.began':
    'job {job}: somebody began {kept} min outside of what is kept of their hours, so the wrong cost of an hour may be taken',
  'doctor.job.worked':
    'job {job}: {kept, number} minutes of one person are kept, the time recorded sums to {again, number}',
} as const;
