import type { Finding } from '../../facts/index.ts';

/** What has to be typed about a destination names it; `send` knows the place, not what people call it. */
export function withDestination({ code, args }: Finding, destination: string): Finding {
  return { code, args: code === 'send.host-key-unknown' ? { destination, ...args } : args };
}
