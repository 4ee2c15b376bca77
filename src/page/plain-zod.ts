import { z } from 'zod';

// Zod compiles its checks with `new Function` where it may; the page's security policy forbids that, and each attempt
// would be reported as a breach. A schema decides when it is made, so this is imported before any other.
z.config({ jitless: true });
