/* Unpacks the page's data: DEFLATE, so that the model takes a third of the room. Source: RFC 1951 (from memory). */
"use strict";

const CODE_ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];
/* The extra bits and the least value of each code for a length and for a distance. */
const LENGTH_BITS = Array.from({ length: 28 }, (_, k) => Math.max(0, (k >> 2) - 1)).concat(0);
const DISTANCE_BITS = Array.from({ length: 30 }, (_, k) => Math.max(0, (k >> 1) - 1));
const starts = (bits, first) => bits.map((_, k) => bits.slice(0, k).reduce((sum, n) => sum + 2 ** n, first));
const LENGTHS = [...starts(LENGTH_BITS.slice(0, 28), 3), 258];
const DISTANCES = starts(DISTANCE_BITS, 1);

/* A canonical code: how many symbols have each length, and the symbols in their order. */
function codeOf(lengths) {
  const count = new Array(16).fill(0);
  lengths.forEach((n) => (count[n] += 1));
  const symbols = lengths.map((n, symbol) => [n, symbol]).filter(([n]) => n);
  symbols.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  return { count, symbols: symbols.map(([, symbol]) => symbol) };
}

const FIXED = [codeOf(Array.from({ length: 288 }, (_, k) => (k < 144 ? 8 : k < 256 ? 9 : k < 280 ? 7 : 8))), codeOf(new Array(30).fill(5))];

class Inflater {
  constructor(source, size) {
    Object.assign(this, { source, at: 0, held: 0, kept: 0, out: new Uint8Array(size), n: 0 });
  }

  bits(n) {
    while (this.kept < n) {
      this.held |= this.source[this.at++] << this.kept;
      this.kept += 8;
    }
    const value = this.held & ((1 << n) - 1);
    this.held >>>= n;
    this.kept -= n;
    return value;
  }

  symbol({ count, symbols }) {
    let [code, first, index] = [0, 0, 0];
    for (let length = 1; length < 16; length++) {
      code |= this.bits(1);
      if (code - first < count[length]) return symbols[index + code - first];
      index += count[length];
      first = (first + count[length]) << 1;
      code <<= 1;
    }
    throw new Error("the data of this page are damaged");
  }

  /* The two codes that a block brings with it. */
  codes() {
    const [n_lengths, n_distances, n_codes] = [this.bits(5) + 257, this.bits(5) + 1, this.bits(4) + 4];
    const short = new Array(19).fill(0);
    for (let k = 0; k < n_codes; k++) short[CODE_ORDER[k]] = this.bits(3);
    const code = codeOf(short);
    const lengths = [];
    while (lengths.length < n_lengths + n_distances) {
      const symbol = this.symbol(code);
      if (symbol < 16) lengths.push(symbol);
      else {
        const again = symbol === 16 ? lengths.at(-1) : 0;
        const times = symbol === 16 ? 3 + this.bits(2) : symbol === 17 ? 3 + this.bits(3) : 11 + this.bits(7);
        for (let k = 0; k < times; k++) lengths.push(again);
      }
    }
    return [codeOf(lengths.slice(0, n_lengths)), codeOf(lengths.slice(n_lengths))];
  }

  stored() {
    this.held = this.kept = 0;
    const length = this.source[this.at] + 256 * this.source[this.at + 1];
    this.out.set(this.source.subarray(this.at + 4, this.at + 4 + length), this.n);
    this.at += 4 + length;
    this.n += length;
  }

  packed([lengths, distances]) {
    for (;;) {
      const symbol = this.symbol(lengths);
      if (symbol === 256) return;
      if (symbol < 256) this.out[this.n++] = symbol;
      else {
        const length = LENGTHS[symbol - 257] + this.bits(LENGTH_BITS[symbol - 257]);
        const code = this.symbol(distances);
        const back = DISTANCES[code] + this.bits(DISTANCE_BITS[code]);
        for (let k = 0; k < length; k++, this.n++) this.out[this.n] = this.out[this.n - back];
      }
    }
  }

  all() {
    for (let last = 0; !last; ) {
      last = this.bits(1);
      const kind = this.bits(2);
      if (kind === 0) this.stored();
      else this.packed(kind === 1 ? FIXED : this.codes());
    }
    return this.out;
  }
}

/* The data of the page as values. */
function unpackData(element) {
  const bytes = Uint8Array.from(atob(element.textContent), (c) => c.charCodeAt(0));
  return JSON.parse(new TextDecoder().decode(new Inflater(bytes, Number(element.dataset.size)).all()));
}
