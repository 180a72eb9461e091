import type { Level, PanelId } from '../../shared/vocabulary.ts';

/** What a title says of an option; panels only where options would else be called the same. */
export type Titled = { readonly wish: string; readonly panels: number | null };

type Option = {
  readonly wish: string;
  readonly panels: readonly { readonly panel: PanelId; readonly level: Level }[];
};

/**
 * What tells the options of a quote apart. They are called by how far the customer wants to go; several that go as far
 * are told apart by on how many panels a machine works.
 */
export function titlesOf(options: readonly Option[]): Titled[] {
  return options.map(({ wish, panels }) => {
    const alone = options.filter((o) => o.wish === wish).length === 1;
    const worked = panels.filter((p) => p.level !== 'leave' && p.level !== 'washOnly').length;
    return { wish, panels: alone ? null : worked };
  });
}
