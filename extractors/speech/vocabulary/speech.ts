// Words that carry no figure: fillers, hedges, approximations, bounds, and talk that is not for the book.
import type { WordKind } from "../types.ts";

/** A list of phrases, parted by commas. */
const list = (text: string): readonly string[] => text.split(",").map((phrase) => phrase.trim());

export const KIND_WORDS: Readonly<Record<WordKind, readonly string[]>> = {
  article: list(`
    a, an
  `),
  and: list(`
    and, &
  `),
  toward: list(`
    to, through
  `),
  or: list(`
    or
  `),
  between: list(`
    between, somewhere between, anywhere between, anywhere from
  `),
  prep: list(`
    on, at, for, in, of, with, from, by, across, per, into, off
  `),
  neg: list(`
    no, nope, sorry, correction, rather, wait, hang on, hold on, actually, i mean, i meant, make it, make that,
    scratch that, strike that, scrub that, scrap that, change that to, change it to, correct that to, correct it to,
    correct that, should be, that should be, it should be, should have been, that should have been, should read,
    i said, i said it was, move that to, move it to, put that on, put that under, that belongs to, that belongs on,
    that goes on, retag that, retag that as, retag it, retag, tag that, tag that as, my mistake, oops, wrong,
    thats wrong, beg your pardon, instead, i misread, misread, excuse me, that was, that is
  `),
  not: list(`
    not
  `),
  approx: list(`
    about, around, roughly, approximately, approx, nearly, almost, maybe, perhaps, probably, couple, couple of,
    a couple, a couple of, a few, few, several, some, ish, or so, or thereabouts, thereabouts, give or take,
    a bit over, a bit under, a bit more than, a bit less than, a bit, bit over, bit under, a little over,
    a little under, a little, a shade, a shade over, a shade under, shade over, shade under, a hair, a hair over,
    a hair under, a touch, a touch over, a touch under, a tad, a tad over, a tad under, just over, just under,
    just about, just shy of, not quite, close to, near enough, near, somewhere around, somewhere near,
    something like, in the region of, plus or minus, fat, scant, good, a full, odd, ballpark, a pair of, a whisker, whisker
  `),
  hedge: list(`
    i think, i reckon, i guess, call it, looks like, say, seems like, i believe, could be, might be, appears to be,
    must be
  `),
  bound: list(`
    over spec, under spec, above spec, below spec, out of spec, over the spec, under the spec, over limit, under limit,
    over the limit, under the limit, less than, more than, at least, at most, no more than, not more than, greater than, up to, under about,
    over about, better than, upwards of, minimum, maximum, min, max
  `),
  filler: list(`
    all around, all round, test, tests, tested, made, makes, pumps, pumped, axis, stack, even, nice, lovely, land,
    compressed, squashed, checking, still, cap, caps, honest, steady, flat out, on the nose, on the button, that one,
    this one, the one, the other one, the last one, the first one, the next one, that ones, this ones, which one,
    each one, another one, the, is, was, it, its, it is, thats, this, that, these, those, are, be, been, um, uh, er,
    erm, ah, hm, hmm, mm hm, well, ok, okay, so, now, then, alright, all right, right then, there, here, theres,
    just, exactly, precisely, reads, read, reading, readings, measures, measured, measuring, measurement, shows,
    showing, says, gives, giving, comes, came, comes out, comes out at, comes to, comes in at, came out at, came out,
    got, get, gets, getting, have, has, having, had, i, i get, i got, i have, ive, ive got, im getting, i make it,
    i make that, i see, i read, we, we have, weve, weve got, weve got a, as, also, set, set to, set at, goes, went,
    sits, sitting, stands, standing, checks, checked, check, log, record, put down, write down, found, new, please,
    again, only, value, size, sized, figure, dial, dead, all, came to, worth, back, position, location, place, each,
    both, end of, turned, taking, taken, yes, yeah, yep, aligned, lined up, lines up, once, twice, over to,
    moving to, next is, next up, same, the same
  `),
  talk: list(`
    just a second, wait a second, hold on a second, hang on a second, hold on a minute, wait a minute,
    hang on a minute, one moment, just a moment, past, clock, quarter past, half past, quarter to, hand, pass, give,
    grab, fetch, bring, radio, phone, call, ring me, outside, weather, coffee, tea, lunch, dinner, beer, dollars,
    dollar, bucks, quid, hours, hour, oclock, today, tomorrow, yesterday, week, weeks,
    year, years, month, monday, tuesday, wednesday, thursday, friday, saturday, sunday, you, your, youre, he, she,
    they, them, out there, out here, outdoors, my, me, him, her, his, us, our, who, why, when, where, what, whats, how, which, would, could, can,
    do, does, did, dont, want, need, needs, like, know, going, gonna, put, tell, told, said, let, lets, remember,
    buy, order, ordered, customer, price, cost, costs, paid, pay, thanks, thank, hello, hey, wrench, spanner, socket,
    hammer, rag, tool, tools, box, if, because, but, until, spec, limit, should, catalogue, manual, book, drill,
    bit of, screwdriver, people, guy, guys, miles, mile, gallons, feet, man, mate, boys, time, times, wants, was it
  `),
};

/** Said alone these only ask for patience, though they look like a place. */
export const IDLE_UTTERANCES: ReadonlySet<string> = new Set([
  "one second",
  "a second",
  "half a second",
  "one moment",
  "one sec",
  "two seconds",
  "a moment",
  "two minutes",
]);
