// Loaded before the built main file: from here on `electron` means the stand-in, for import and require alike.
import { registerHooks } from 'node:module';

const standin = new URL('./module.ts', import.meta.url).href;
registerHooks({
  resolve: (specifier, context, next) =>
    specifier === 'electron' || specifier === 'electron/main'
      ? { url: standin, shortCircuit: true, format: 'module-typescript' }
      : next(specifier, context),
});
Object.defineProperty(process.versions, 'electron', { value: '45.0.0-standin', enumerable: true });
