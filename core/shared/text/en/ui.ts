/** The frame: places, command bar, job in hand, buttons that every place shares. */
export const uiTexts = {
  'ui.title': 'Rakelight',
  'ui.place.desk': 'Desk',
  'ui.place.bays': 'Bays',
  'ui.place.jobs': 'Jobs',
  'ui.place.stock': 'Stock',
  'ui.place.money': 'Money',
  'ui.place.figures': 'Figures',
  'ui.place.shop': 'Shop',
  'ui.places': 'Places',
  'ui.skip': 'To the work',
  'ui.badge': '{count, plural, one {# needs you} other {# need you}}',
  'ui.when.today': 'today {time}',
  'ui.when.yesterday': 'yesterday {time}',
  'ui.when.tomorrow': 'tomorrow {time}',
} as const;
