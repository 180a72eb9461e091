/** Pairs of neighbouring letters, without marks on them, blanks and capitals. */
function pairs(name: string): readonly string[] {
  const plain = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '');
  return [...plain].slice(1).map((letter, i) => `${[...plain][i]}${letter}`);
}

/**
 * Whether a changed name still reads like the same person's: as a longer or shorter form, or with letters put right.
 * `Jon` and `John`, `Ólafur` and `Olafur Thorsson` are alike; `Ólafur Þórsson` and `Zoë Nuñez` are not.
 * Two fifths of the letter pairs have to be shared (Dice's measure), or one name lies within the other.
 */
export function alike(a: string, b: string): boolean {
  const [one, two] = [pairs(a), pairs(b)];
  const few = one.length < two.length ? one : two;
  if (few.length < 2) return true;
  const left = [...(few === one ? two : one)];
  const shared = few.filter((pair) => {
    const at = left.indexOf(pair);
    if (at >= 0) left.splice(at, 1);
    return at >= 0;
  }).length;
  return shared === few.length || (2 * shared) / (one.length + two.length) >= 0.4;
}
