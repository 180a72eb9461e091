import type { HandlersFor } from '../handler.ts';
import type { billingEntries } from '../shared/catalogue/billing.ts';

export const billingHandlers: HandlersFor<typeof billingEntries> = {};
