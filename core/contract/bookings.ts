import type { HandlersFor } from '../handler.ts';
import type { bookingsEntries } from '../shared/catalogue/bookings.ts';

export const bookingsHandlers: HandlersFor<typeof bookingsEntries> = {};
