import type { Page } from 'playwright-core';

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
export async function signInOwner(page: Page): Promise<boolean> {
  const here = (await callFrom(page, 'access.here', {})) as Here | null;
  const owner = here?.people.find((person) => person.role === 'owner');
  if (!owner) return false;
  const token = crypto.randomUUID().replaceAll('-', '') + crypto.randomUUID().replaceAll('-', '');
  const answer = await callFrom(page, 'access.signIn', { personId: owner.id, token });
  if (!(answer as { signedIn?: boolean } | null)?.signedIn) return false;
  await page.evaluate((kept) => sessionStorage.setItem('rakelight.session', kept), token);
  await page.reload();
  await page.locator('main').first().waitFor();
  return true;
}
