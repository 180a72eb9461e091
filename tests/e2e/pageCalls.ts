import type { Page } from 'playwright-core';
import type { Role } from '#core/shared/roles.ts';

/** One call through the page's own window token, as its screens would make it; null where it is refused. */
export function callFrom(page: Page, name: string, input: unknown): Promise<unknown> {
  return page.evaluate(
    async ([called, sent]) => {
      const session = sessionStorage.getItem('rakelight.session');
      const answer = await fetch('/rpc', {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          authorization: `Bearer ${sessionStorage.getItem('rakelight.window') ?? ''}`,
        },
        body: JSON.stringify({
          name: called,
          input: sent,
          commandId: crypto.randomUUID(),
          ...(session ? { session } : {}),
        }),
      });
      const reply = (await answer.json()) as { ok: boolean; value?: unknown };
      return reply.ok ? reply.value : null;
    },
    [name, input] as const,
  );
}

type Here = { readonly people: readonly { readonly id: string; readonly role: string }[] };

/** Signs the first owner in at this window, where a shop is set up and they have no PIN. */
export function signInOwner(page: Page): Promise<boolean> {
  return signInAs(page, 'owner');
}

/** The same with the first person of a role. */
export async function signInAs(page: Page, role: Role): Promise<boolean> {
  const here = (await callFrom(page, 'access.here', {})) as Here | null;
  const found = here?.people.find((person) => person.role === role);
  if (!found) return false;
  const token = crypto.randomUUID().replaceAll('-', '') + crypto.randomUUID().replaceAll('-', '');
  const answer = await callFrom(page, 'access.signIn', { personId: found.id, token });
  if (!(answer as { signedIn?: boolean } | null)?.signedIn) return false;
  await page.evaluate((kept) => sessionStorage.setItem('rakelight.session', kept), token);
  await page.reload();
  await page.locator('main').first().waitFor();
  return true;
}
