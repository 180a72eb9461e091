/** Invented people, firms, vehicles and colours of the demo shop. Nobody and nothing real. */

export const FIRST_NAMES = [
  'Marit',
  'Dev',
  'Celia',
  'Jonah',
  'Piers',
  'Halima',
  'Anton',
  'Noor',
  'Lena',
  'Greta',
  'Lucan',
  'Kester',
  'Ilsa',
  'Bram',
  'Odile',
  'Tamsin',
  'Rurik',
  'Saskia',
  'Ewan',
  'Yara',
  'Milo',
  'Petra',
  'Cormac',
  'Isaura',
  'Joris',
  'Nadia',
  'Felix',
  'Ottilie',
  'Ragnar',
  'Sunniva',
  'Käthe',
  'Björn',
  'Zoë',
  'Renée',
  'Łucja',
  'Emrys',
] as const;

export const LAST_NAMES = [
  'Vane',
  'Ostler',
  'Farrow',
  'Ellory',
  'Tallow',
  'Strand',
  'Brisk',
  'Whitlam',
  'Okoro',
  'Holm',
  'Pell',
  'Dray',
  'Tarn',
  'Quillon',
  'Ashdown-Mirel',
  'Brandvold',
  'Castellane',
  'Dunmorrow',
  'Eskeland',
  'Fenwright',
  'Gallowain',
  'Hartsvik',
  'Iversholt',
  'Jessamy',
  'Kestrelmoor',
  'Lindqvale',
  'Marchetane',
  'Nightingale-Östergaard',
  'Oakhollow',
  'Pemberwick',
  'Rosenthorne',
  'Silverlund',
  'Thistlewood',
  'Umberfield',
  'Valdéron',
  'Wolfsgrund',
  'Yarrowby',
  'Zellmark',
] as const;

export const FIRMS = [
  'Tollmere Quay Couriers',
  'Osierwick Taxis',
  'Quillfen Driving School',
  'Ferrowick Florists',
  'Embervale Home Care',
  'Harrowmoss Surveyors',
  'Brindlewick Catering',
  'Fennoway Property Agents',
] as const;

export const INSURERS = ['Lanternhill Mutual Cover', 'Saltmarsh Vane Vehicle Cover'] as const;

/** Make and model words per body style. */
export const VEHICLES = {
  saloon: ['Velloy Merrin', 'Harrowe Lintel', 'Ostrake Fell', 'Pellane Rand'],
  hatch: ['Velloy Tern', 'Harrowe Quill', 'Dunmarr Pip'],
  estate: ['Ostrake Delph', 'Velloy Carrow'],
  coupe: ['Pellane Coble', 'Harrowe Sable'],
  tall: ['Dunmarr Skerry', 'Ostrake Highfold', 'Velloy Brae'],
  van: ['Dunmarr Haul', 'Pellane Crate'],
  pickup: ['Dunmarr Drover'],
} as const;

export const COLOURS = [
  'deep blue',
  'chalk white',
  'night black',
  'silver grey',
  'ember red',
  'slate',
  'moss green',
  'sand',
  'pearl white',
  'graphite',
] as const;

/** Who comes from elsewhere and reads papers in a language of their own. */
export const VISITORS = [
  { name: 'Käthe Ostermünde', language: 'de' },
  { name: 'Solène Vaubrune', language: 'fr' },
] as const;

export const STREETS = [
  'Sluice Lane',
  'Tannery Yard',
  'Old Weighhouse',
  'Lantern Street',
  'Upper Quay',
  'Mill Rise',
  'Chandler Row',
  'Fellmongers Way',
] as const;

export const WISHES = [
  'Swirls in the sun. Make it look good.',
  'Bought it used, the bonnet looks dull.',
  'Selling it next month, best result for the money.',
  'Bird mess on the roof, is that fixable?',
  'Full correction and a coating, take your time.',
  'Washed by machine for years. What can you do by Friday?',
  'Hard water marks on the doors from the sprinkler.',
  'Just a proper wash and protection before winter.',
  'Holograms from the last place that polished it.',
  'Dog hair and coffee inside, and a quick polish outside.',
] as const;

export const TOWN = 'Emberwick';
