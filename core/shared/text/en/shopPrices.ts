/** Packages, the minimum charge of a job, and surcharges. */
export const shopPriceTexts = {
  'error.PACKAGE_NOT_OFFERED':
    'The package “{name}” is not offered on this day. Look under Shop, Packages and surcharges. No quote was made.',
  'error.PACKAGE_WORK_MISSING':
    'The package “{name}” is not in the list yet. Say what work it is, and its price. Nothing was saved.',
  'shop.part.charges': 'Packages and surcharges',
  'shop.say.packages': '{count, plural, one {one package} other {# packages}}',
  'shop.say.noCharges': 'none set yet',
  'shop.packages': 'Packages',
  'shop.noPackages': 'None yet. A package is work of a known extent at one price.',
  'shop.packageName': 'name, as printed',
  'shop.packageNameNote':
    'A name of the list sets a new price of it from the day below; its work stays unless changed here.',
  'shop.packageWhat': 'what it is',
  'shop.packageWish': 'work',
  'shop.packageBodies': 'For which bodies (none ticked: for all)',
  'shop.packageFor': 'for {bodies}',
  'shop.packagePrice': 'price',
  'shop.packagePriceNote': 'Empty beside a name of the list: no longer offered from the day below.',
  'shop.packageGone': 'not offered',
  'shop.packageNeedsName': 'Give the name that is printed first.',
  'shop.packageNeedsPrice': 'Give its price first.',
  'shop.packageNeedsMore': 'A package costs more than nothing. Leave the price empty to end it.',
  'shop.addPackage': 'Set this package',
  'shop.endPackage': 'Offer it no longer',
  'shop.charges': 'Minimum charge and surcharges',
  'shop.noCharges': 'None set: a job costs what its hours and materials come to.',
  'shop.charge.minimum': 'minimum charge',
  'shop.charge.rush': 'rush',
  'shop.charge.afterHours': 'out of opening hours',
  'shop.chargeHead': 'how much',
  'shop.chargeNone': 'none',
  'shop.chargeLeast': 'minimum charge',
  'shop.chargeShare': 'on top of the price',
  'shop.addCharge': 'Set this charge',
  'shop.chargeCaution':
    'Quotes keep what stood on their day. How a surcharge has to be shown to a consumer is a matter of local law: ask the shop’s adviser.',
  'error.PACKAGE_OTHER_WORK':
    'The package “{name}” is for other work than this estimate, or for other cars. Price it by its hours. No quote was made.',
  'error.PACKAGE_FIXED':
    'A package, or a price by the panel, is one price whatever the time. Choose a fixed price, or price by hours. No quote was made.',
  'quote.asPackage': 'Estimate {version} as the package “{name}”, {price}',
  'quote.packageFixes':
    'A package or a price by the panel is fixed, and a quote has one basis: every option of this one is a fixed price then.',
  'quote.ask.rush': 'Rush, +{share}',
  'quote.ask.afterHours': 'Out of opening hours, +{share}',
} as const;
