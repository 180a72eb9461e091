import type { HandlersFor } from '../handler.ts';
import type { peopleEntries } from '../shared/catalogue/people.ts';

export const peopleHandlers: HandlersFor<typeof peopleEntries> = {};
