/** Copies of the shop's file, and going back to one. */
export const copiesTexts = {
  'shop.copies.safe': 'Safe as of {at}.',
  'shop.copies.none': 'There is no copy yet.',
  'shop.copies.how':
    'A copy is made and checked on every day that Rakelight is open; the last fourteen are kept, with their pictures. Take the folder of copies to another disk now and then: a copy beside the file burns with it.',
  'shop.copies.now': 'Copy now',
  'shop.copies.lost':
    'The copy is made, but {pictures, plural, one {# picture is} other {# pictures are}} gone from this computer’s disk or spoiled there. An older copy may still hold them.',
  'shop.copies.missed': 'none on {days}',
  'shop.copies.back': 'Go back to it',
  'shop.copies.backTo': 'Go back to the copy of {at}',
  'shop.copies.reason.daily': 'of the day',
  'shop.copies.reason.migration': 'before a new version',
  'shop.copies.reason.asked': 'asked for',
  'shop.copies.reason.restore': 'before going back',
  'shop.copies.ask': 'Go back to the copy of {at}?',
  'shop.copies.askText':
    'Everything written since then leaves the shop. The present file is not deleted: it is kept aside in the data folder. Papers may have been issued since the copy, so the next invoice asks for the last number on paper first. Everybody else should be out of Rakelight.',
  'shop.copies.yes': 'Go back to this copy',
  'shop.copies.no': 'Leave it',
  'shop.copies.went': 'The shop is again as it was on {at}.',
  'shop.copies.wentText':
    'The file before it was not deleted: it lies in {folder}. {pictures, plural, =0 {Its pictures are all there.} one {One of its pictures could not be found anywhere.} other {# of its pictures could not be found anywhere.}} The next invoice asks for the last number on paper first.',
  'shop.copies.wentSeen': 'Seen',
} as const;
