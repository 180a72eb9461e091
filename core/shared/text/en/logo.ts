/** The shop's sign at the head of documents. */
export const logoTexts = {
  'error.LOGO_TOO_LARGE':
    'A logo is at most {mostMb} MB and {mostPx} dots wide and high. Save a smaller one and choose that. Nothing was changed.',
  'error.LOGO_UNREADABLE':
    'This is no whole PNG or JPEG that documents take. Save it as a plain PNG (8 bits a colour, not interlaced) or JPEG and choose that. Nothing was changed.',
  'word.record.logo': 'logo',
  'journal.shop.setLogo': 'changed the logo on documents',
  'journal.shop.removeLogo': 'took the logo off documents',
  'shop.logo': 'Logo on documents',
  'shop.logoNone': 'None. Documents begin with the shop’s name.',
  'shop.logoChoose': '{has, select, true {Choose another} other {Choose a PNG or JPEG}}',
  'shop.logoOut': 'Take it off',
  'shop.logoNote': 'It stands above the name, fitted into 6 × 2 cm. Documents that are issued keep theirs.',
  'doc.logo': 'Logo of {shop}',
  'field.logoBase64': 'logo file',
} as const;
