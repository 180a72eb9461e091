import type { Service } from '../core/host/client.ts';
import { tell } from './tell.ts';

/** Switches to the demo shop, building it first where it is not there yet; says how far it is. */
export async function openDemo(service: Service, rebuild = false): Promise<void> {
  let shown = -1;
  await service.openDemo(rebuild, {
    onProgress: (done, total) => {
      const percent = Math.floor((100 * done) / Math.max(1, total));
      if (percent < shown + 10) return;
      shown = percent;
      console.log(tell('start.demoProgress', { percent }));
    },
  });
}
