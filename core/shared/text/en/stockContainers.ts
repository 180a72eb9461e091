/** Opened containers: what is left in them, and what is past its life. */
export const stockContainersTexts = {
  'error.NOT_IN_CONTAINERS': '{item} goes round in pieces, it is in no container. Count the pieces instead.',
  'error.OPENED_AHEAD': '{openedDay} is still to come. Choose the day on which it was opened.',
  'error.CONTAINER_CLOSED':
    'This container of {item} was closed already: empty, or thrown away. Nothing was changed.',
  'error.LIGHTER_THAN_EMPTY':
    '{item}: the scales say less than the empty container weighs. Weigh again, or put its empty weight right; nothing was saved.',
  'error.MORE_THAN_HOLDS':
    '{item}: that is more than the container holds. Check the scales, the empty weight and the density; nothing was saved.',
  'error.NOT_WEIGHED':
    '{item} is not kept by volume or weight, so a scale can’t say what is left. Read the level.',
  'error.DENSITY_MISSING':
    '{item} is kept by volume: write how heavy it is, from the maker’s sheet. Nothing was saved.',
  'error.THROWN_WHY': 'Write why {item} was thrown away.',
  'field.containerId': 'Container',
  'field.holds': 'Held when full',
  'field.openedDay': 'Opened on',
  'field.level': 'Level',
  'field.of': 'Parts of the level',
  'field.grossMg': 'Weight now',
  'field.tareMg': 'Weight when empty',
  'field.gramsPerLitre': 'Density',
  'field.read': 'What is left',
  'field.sealed': 'In packs nobody had opened',
  'field.as': 'How it ended',

  'stock.say.throwOpened': 'Throw away {amount} {item}: opened {opened}, it kept to {kept}.',
  'stock.say.throwSealed':
    'Throw away {amount} {item}{batch, select, none {} other {, batch {batch}}}: best before {day}, if the oldest was used first.',
  'stock.say.throwKept':
    'Throw away {amount} {item}{batch, select, none {} other {, batch {batch}}}: it came {came} and keeps {days} days sealed, if the oldest was used first. Look at the pack: a day printed on it goes before.',
  'stock.why.opened': 'opened {opened}, kept to {kept}',
  'stock.why.sealed': '{batch, select, none {} other {batch {batch}, }}best before {day}',

  'stock.why.kept': '{batch, select, none {} other {batch {batch}, }}came {came}, keeps {days} days sealed',

  'stock.ui.bayItems': 'Bottles, tubs and rolls',
  'stock.ui.bayItemsNote': 'choose one or scan it',
  'stock.ui.toThrow': 'Past its life',
  'stock.ui.toThrowNote': 'dispose of it by the maker’s sheet and local rules',
  'stock.ui.lookAt': 'Look at the item',
  'stock.ui.thrown': 'Thrown away, write it off',
  'stock.ui.containers': 'Opened',
  'stock.ui.containersNote': '{sealed} sealed besides',
  'stock.ui.containersNone': 'None is written down as opened.',
  'stock.ui.openedLine':
    'opened {day}{kept, select, never {} other {, keeps to {kept}}}{batch, select, none {} other {, batch {batch}}}',
  'stock.ui.openedPast': 'past its life since {day}',
  'stock.ui.restOf': '{rest} of {holds}',
  'stock.ui.restHow':
    '{how, select, opened {less what was drawn since} level {by level, {day}} other {weighed {day}}}',
  'stock.ui.openOne': 'One was opened',
  'stock.ui.openedOn': 'Opened on',
  'stock.ui.openSave': 'Write it down',
  'stock.ui.readRest': 'What is left',
  'stock.ui.byLevel': 'By level',
  'stock.ui.byWeight': 'On the scales',
  'stock.ui.level': 'Eighths full',
  'stock.ui.gross': 'With all that is in it',
  'stock.ui.tare': 'Empty',
  'stock.ui.density': 'Density',
  'stock.ui.densityHint': 'by the maker’s sheet',
  'stock.ui.restSave': 'Save what is left',
  'stock.ui.restFirst': 'Say how full it is, or what it weighs.',
  'stock.ui.usedUp': 'Used up',
  'stock.ui.throwAway': 'Throw away',
} as const;
