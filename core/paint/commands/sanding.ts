import type { WriteCtx } from '../../context.ts';
import type { ConsentWay } from '../../shared/consent.ts';
import type { CustomerId, JobId } from '../../shared/ids.ts';
import type { FilmTenthUm } from '../../shared/units.ts';
import type { PanelId } from '../../shared/vocabulary.ts';
import { forgetConsents, insertConsent, removeConsentRow } from '../store/inspection.ts';
import { needInspection, notePanels } from './notes.ts';

type OnPanel = { readonly jobId: JobId; readonly panel: PanelId };
/** Who agreed, how, and down to what depth at most, 0.1 µm. */
type Agreed = OnPanel & { readonly name: string; readonly way: ConsentWay; readonly upToTenthUm: number };

/** Records the owner's own consent to wet sand a panel; one given before is taken back. @throws NO_INSPECTION, PANEL_NOT_ON_BODY */
export function agreeSanding(ctx: WriteCtx, input: Agreed): null {
  const { panel, name, way } = input;
  const look = needInspection(ctx, input.jobId, panel);
  removeConsentRow(ctx.db, look.id, panel, ctx.now);
  insertConsent(ctx.db, {
    id: ctx.newId<string>(),
    inspectionId: look.id,
    panel,
    name,
    way,
    upToTenthUm: input.upToTenthUm as FilmTenthUm,
    personId: ctx.actor?.personId ?? null,
    atMs: ctx.now,
  });
  notePanels(ctx, look.id, [panel], 'sandingConsent');
  return null;
}

/** Takes a consent back: a panel is not sanded without one. @throws NO_INSPECTION, PANEL_NOT_ON_BODY */
export function withdrawSanding(ctx: WriteCtx, input: OnPanel): null {
  const look = needInspection(ctx, input.jobId, input.panel);
  if (removeConsentRow(ctx.db, look.id, input.panel, ctx.now))
    notePanels(ctx, look.id, [input.panel], 'sandingConsent');
  return null;
}

/** Blanks the names of those who agreed for a customer who is erased. */
export function eraseConsents(ctx: WriteCtx, customerId: CustomerId, instead: string): void {
  forgetConsents(ctx.db, customerId, instead);
}
