/** A plate as it is looked for: letters and digits only, capitals. @example plateKey('ew 22-kpo') //=> 'EW22KPO' */
export function plateKey(plate: string): string {
  return plate.toUpperCase().replace(/[^\p{L}\p{N}]+/gu, '');
}
