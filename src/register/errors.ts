/**
 * Codes that the register raises.
 *
 * | code | when |
 * | --- | --- |
 * | `register-unusable` | the database cannot be opened; it may be taken away and is rebuilt from the journal |
 * | `register-newer` | a later version made the database; it is left as it is |
 * | `bad-cursor` | a page was asked for behind a cursor that no page gave |
 * | `bad-limit` | a page of no, or of too many frames was asked for |
 */
export type RegisterErrorCode = 'register-unusable' | 'register-newer' | 'bad-cursor' | 'bad-limit';
