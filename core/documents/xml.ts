/** A piece of XML, already escaped. '' leaves nothing behind. */
export type Xml = string;

// Characters that XML 1.0 cannot carry at all.
const FORBIDDEN = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

/** Text as XML carries it. @source XML 1.0, 2.2 and 2.4 */
export function escaped(text: string): string {
  return text
    .replace(FORBIDDEN, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** An element with text, or nothing when the text is empty. */
export function leaf(name: string, text: string, attributes = ''): Xml {
  return text === '' ? '' : `<${name}${attributes}>${escaped(text)}</${name}>`;
}

/** An element with children, or nothing when all of them are empty. */
export function tree(name: string, ...children: readonly Xml[]): Xml {
  const inside = children.join('');
  return inside === '' ? '' : `<${name}>${inside}</${name}>`;
}
