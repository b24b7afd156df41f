/**
 * A fault in one feature must not take the others with it. Each request runs inside a guard: when it fails the answer is
 * the empty one, and the log says so once per feature, so that a fault on every keystroke does not flood it.
 */
export interface Guard {
  run<T>(feature: string, fallback: T, work: () => T): T;
  runAsync<T>(feature: string, fallback: T, work: () => Promise<T>): Promise<T>;
}

export function createGuard(say: (message: string) => void): Guard {
  const said = new Set<string>();
  const failed = (feature: string, cause: unknown): void => {
    if (said.has(feature)) return;
    said.add(feature);
    const why = cause instanceof Error ? (cause.stack ?? cause.message) : String(cause);
    say(
      `The ${feature} failed and gave nothing; everything else works on. Please report this with the program: ${why}`,
    );
  };
  return {
    run(feature, fallback, work) {
      try {
        return work();
      } catch (cause) {
        failed(feature, cause);
        return fallback;
      }
    },
    async runAsync(feature, fallback, work) {
      try {
        return await work();
      } catch (cause) {
        failed(feature, cause);
        return fallback;
      }
    },
  };
}
