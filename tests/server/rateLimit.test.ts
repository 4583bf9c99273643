import { describe, expect, it } from "vitest";
import { RateLimit, RateLimits } from "../../server/rateLimit";

describe("a rate", () => {
  it("of 3 at once and 2 a second lets as many through, and no more after a pause of any length", () => {
    const limit = new RateLimit({ burst: 3, perSecond: 2 }, 0);
    const taken = (now: number, count: number) => Array.from({ length: count }, () => limit.take(now));
    expect(taken(0, 4)).toEqual([true, true, true, false]);
    expect(taken(499, 1)).toEqual([false]);
    expect(taken(500, 2)).toEqual([true, false]);
    expect(taken(1_000_000, 4)).toEqual([true, true, true, false]);
  });

  it("gives nothing for a clock that is set back", () => {
    const limit = new RateLimit({ burst: 1, perSecond: 1 }, 10_000);
    expect(limit.take(10_000)).toBe(true);
    expect(limit.take(0)).toBe(false);
    expect(limit.take(1000)).toBe(true);
  });

  it("is each source's own", () => {
    const limits = new RateLimits({ burst: 1, perSecond: 0 });
    expect([limits.take("a", 0), limits.take("b", 0), limits.take("a", 0)]).toEqual([true, true, false]);
  });

  it("of very many sources takes bounded memory, and forgets the quiet ones first", () => {
    const limits = new RateLimits({ burst: 2, perSecond: 1 });
    expect([limits.take("busy", 0), limits.take("busy", 0)]).toEqual([true, true]);
    for (let index = 0; index < 20_000; index++) limits.take(`source ${index}`, 0);
    expect(limits.size).toBeLessThanOrEqual(10_000);
    for (let index = 0; index < 20_000; index++) limits.take(`other ${index}`, 10_000);
    expect(limits.size).toBeLessThanOrEqual(10_000);
  });
});
