import type { PairStage, Protection } from '../../shared/views/estimate.ts';
import type { Level, PanelId } from '../../shared/vocabulary.ts';

/** One thing that an option has and another that goes as far has not, or not so much of. */
export type TitlePart =
  | { readonly what: 'panels' | 'deep' | 'hands' | 'version'; readonly n: number }
  | { readonly what: 'only'; readonly panels: readonly PanelId[] }
  | { readonly what: 'interior'; readonly on: boolean }
  | { readonly what: 'protection'; readonly kind: Protection };

/** What a title says of an option: how far it goes, and what tells it from others that go as far. */
export type Titled = { readonly wish: string; readonly parts: readonly TitlePart[] };

type Option = {
  readonly wish: string;
  readonly version: number;
  readonly panels: readonly { readonly panel: PanelId; readonly level: Level }[];
  readonly asked: {
    readonly interior: boolean;
    readonly protection: Protection;
    readonly two: readonly PairStage[];
  };
};

/** What may differ, what a customer sees first standing first. */
const PARTS: readonly ((option: Option, alike: readonly Option[]) => TitlePart)[] = [
  (o) => ({ what: 'panels', n: worked(o).length }),
  (o) => ({ what: 'deep', n: worked(o).filter((p) => p.level !== 'oneStage').length }),
  (o) => ({ what: 'interior', on: o.asked.interior }),
  (o) => ({ what: 'protection', kind: o.asked.protection }),
  (o, alike) => ({ what: 'only', panels: onlyIn(o, alike) }),
  (o) => ({ what: 'hands', n: o.asked.two.length }),
  (o) => ({ what: 'version', n: o.version }),
];

/**
 * What tells the options of a quote apart. They are called by how far the customer wants to go; several that go as far
 * by what differs between them besides, and no more of it than tells each from each.
 */
export function titlesOf(options: readonly Option[]): Titled[] {
  return options.map((option) => {
    const alike = options.filter((o) => o.wish === option.wish);
    return { wish: option.wish, parts: telling(alike).map((part) => part(option, alike)) };
  });
}

/** The parts that are needed until no two options read the same. */
function telling(alike: readonly Option[]): typeof PARTS {
  const chosen: (typeof PARTS)[number][] = [];
  const kinds = (parts: typeof PARTS): number =>
    new Set(alike.map((o) => JSON.stringify(parts.map((part) => part(o, alike))))).size;
  for (const part of PARTS) if (kinds([...chosen, part]) > kinds(chosen)) chosen.push(part);
  return chosen;
}

function worked(option: Option): Option['panels'] {
  return option.panels.filter((p) => p.level !== 'leave' && p.level !== 'washOnly');
}

/** Panels that a machine works on here and not in every option that goes as far. */
function onlyIn(option: Option, alike: readonly Option[]): PanelId[] {
  const inAll = (panel: PanelId): boolean => alike.every((o) => worked(o).some((p) => p.panel === panel));
  return worked(option).flatMap((p) => (inAll(p.panel) ? [] : [p.panel]));
}
