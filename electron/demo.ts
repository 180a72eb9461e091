import type { Service } from '../core/host/client.ts';
import { tell, tellError } from './tell.ts';

/** Switches to the demo shop, building it first where it is not there yet; says how far it is. */
export async function openDemo(service: Service, rebuild = false): Promise<void> {
  let shown = -1;
  const reply = await service.call(
    { name: 'host.openDemo', input: { rebuild } },
    {
      onProgress: (done, total) => {
        const percent = Math.floor((100 * done) / Math.max(1, total));
        if (percent < shown + 10) return;
        shown = percent;
        console.log(tell('start.demoProgress', { percent }));
      },
    },
  );
  if (!reply.ok) throw new Error(tellError(reply.error));
}
