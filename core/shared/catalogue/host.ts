import { z } from 'zod';
import { type Entry, host } from '../entry.ts';
import type { BackupMadeView, BackupView, DemoView, HostInfo, RestoredView } from '../views/host.ts';

const nothing = z.strictObject({});

/** Actions on the shop's file as a whole. */
export const hostEntries = {
  'host.info': host<HostInfo>()({
    needs: 'anyone',
    about: 'Which data folder is open, whether it is the demo shop, and which versions are running.',
    input: nothing,
  }),
  'host.backups': host<readonly BackupView[]>()({
    needs: 'desk',
    about: 'Copies of the shop file, newest first.',
    input: nothing,
  }),
  'host.backupNow': host<BackupMadeView>()({
    needs: 'desk',
    about: 'Makes and verifies a copy of the shop file and its pictures now.',
    input: nothing,
  }),
  'host.restore': host<RestoredView>()({
    needs: 'owner',
    about:
      'Puts a verified copy in place of the shop file and brings its pictures back; the present file is kept aside.',
    input: z.strictObject({ fileName: z.string().min(1).max(120) }),
  }),
  'host.openDemo': host<DemoView>()({
    needs: 'ownerOnceSetUp',
    about: 'Builds the demo shop in a folder of its own (or opens the one that is there) and switches to it.',
    input: z.strictObject({ rebuild: z.boolean().default(false) }),
  }),
  'host.leaveDemo': host<DemoView>()({
    needs: 'ownerOnceSetUp',
    about:
      'Goes back from the demo shop to the shop of this data folder; while that is not set up, whoever asks.',
    input: nothing,
  }),
} as const satisfies Readonly<Record<string, Entry>>;
