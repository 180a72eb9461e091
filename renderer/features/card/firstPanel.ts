import type { CardStage } from '#core/shared/views/card.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';

/** The panel that a form on the card begins with: the bonnet where the stage is on it, else the stage's first. */
export function firstPanel(stage: CardStage): PanelId {
  return stage.panels.includes('bo') ? 'bo' : (stage.panels[0] ?? 'bo');
}
