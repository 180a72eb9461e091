/** Asked for by the language itself or by those who print an object. */
const ALWAYS: readonly string[] = [
  'then',
  'toJSON',
  'inspect',
  'nodeType',
  'constructor',
  'domain',
  '_events',
];

/** An object that throws, by name, when something is used that it does not model. */
export function strict<T extends object>(target: T, name: string): T {
  return new Proxy(target, {
    get(own, key) {
      if (typeof key === 'string' && !(key in own) && !ALWAYS.includes(key))
        throw new Error(`electron stand-in: ${name}.${key} is not modelled`);
      const value: unknown = Reflect.get(own, key, own);
      // Bound to the object itself: its private fields are not reachable through the proxy.
      return typeof value === 'function' ? value.bind(own) : value;
    },
  });
}

/** An event whose default can be prevented. */
export function preventable<T extends object>(
  data: T,
): T & { defaultPrevented: boolean; preventDefault(): void } {
  const event = {
    ...data,
    defaultPrevented: false,
    preventDefault(): void {
      event.defaultPrevented = true;
    },
  };
  return event;
}
