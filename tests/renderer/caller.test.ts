import { expect, it } from 'vitest';
import { type CallerDraft, NOTHING, writeCaller } from '../../renderer/features/takeIn/caller.ts';

/** A host that keeps people and refuses the first vehicle; it notes what it was asked. */
function refusingHost() {
  const asked: string[] = [];
  const call = async ({ name }: { readonly name: string }) => {
    asked.push(name);
    const isFirst = asked.filter((n) => n === name).length === 1;
    if (name === 'people.addVehicle' && isFirst)
      return { ok: false, error: { code: 'BAD_INPUT', data: { field: 'year', problem: 'tooSmall' } } };
    return { ok: true, value: { id: `${name}-1`, vinCheck: null }, touches: [] };
  };
  return { asked, host: { call } as unknown as Parameters<typeof writeCaller>[0] };
}

it('adds a customer once when their vehicle is refused and then put right', async () => {
  globalThis.sessionStorage ??= { getItem: () => null } as unknown as Storage;
  const { asked, host } = refusingHost();
  let draft: CallerDraft = { ...NOTHING, caller: { ...NOTHING.caller, name: 'Ilse Tarn', year: 12 } };
  const first = writeCaller(host, draft, (kept) => {
    draft = kept;
  });
  await expect(first).rejects.toThrow();
  const again = { ...draft, caller: { ...draft.caller, year: 2012 } };
  const { draft: kept } = await writeCaller(host, again, () => {});
  expect(asked).toEqual(['people.addCustomer', 'people.addVehicle', 'people.addVehicle']);
  expect(kept.ids).toEqual({
    customer: { id: 'people.addCustomer-1', revision: 1 },
    vehicle: { id: 'people.addVehicle-1', revision: 1 },
  });
});
