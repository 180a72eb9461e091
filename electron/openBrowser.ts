import { spawn } from 'node:child_process';

/** True when a window could be shown to somebody. */
export function hasDisplay(
  platform: NodeJS.Platform = process.platform,
  env: Readonly<Record<string, string | undefined>> = process.env,
): boolean {
  if (platform !== 'linux') return true;
  return Boolean(env['DISPLAY'] || env['WAYLAND_DISPLAY']);
}

/** Opens the person's own browser; where there is none the printed link is enough, so failures are silent. */
export function openBrowser(link: string): void {
  if (!hasDisplay() || process.env['CI'] || process.env['RAKELIGHT_NO_BROWSER']) return;
  const [command, args] = openerOf(process.platform, link);
  spawn(command, args, { stdio: 'ignore', detached: true })
    .on('error', () => undefined)
    .unref();
}

function openerOf(platform: NodeJS.Platform, link: string): readonly [string, string[]] {
  if (platform === 'darwin') return ['open', [link]];
  // Not `start`: cmd would read the link's & and # by its own rules.
  if (platform === 'win32') return ['rundll32', ['url.dll,FileProtocolHandler', link]];
  return ['xdg-open', [link]];
}
