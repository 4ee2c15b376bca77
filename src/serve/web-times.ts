/**
 * A request's headers must be here within the first time, all of it within the second: no page of ours comes near, and
 * a caller that sends a byte now and then holds no connection. Node looks at them every 30 s.
 */
export const headersTimeoutMs = 10_000;
export const requestTimeoutMs = 30_000;

/** A connection on which nothing moves is closed; event streams beat every 15 s and so never reach it. */
export const connectionTimeoutMs = 120_000;

/** Between two requests of one connection. A page asks again after ten silent seconds and finds its connection. */
export const keepAliveTimeoutMs = 30_000;
