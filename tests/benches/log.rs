//! A year of a logger at ten seconds, three million rows, read from a stream.
//!
//! Wanted: 3 s and 200 MB.

#![allow(clippy::unwrap_used)]

use std::io::{self, Read, Write};

use divan::Bencher;
use sunharp::logger::{Columns, Log, digest};

/// Rows of the file.
const ROWS: u64 = 3_000_000;

/// Makes rows as they are asked for, so that the file itself needs no memory.
struct Rows {
    next: u64,
    line: Vec<u8>,
    at: usize,
}

impl Rows {
    fn new() -> Self {
        let line = b"time,t_coll,t_in,t_out,t_tank_lo,t_amb,g_poa,flow_lpm,pump\n".to_vec();
        Self { next: 0, line, at: 0 }
    }

    fn advance(&mut self) {
        self.line.clear();
        self.at = 0;
        let at = self.next * 10;
        self.next += 1;
        let (day, second) = (at / 86_400, at % 86_400);
        let (month, date) = (1 + day / 28 % 12, 1 + day % 28);
        let year = 2026 + day / 336;
        let wobble = self.next % 7;
        let sun = 800 + wobble * 10;
        let (hour, minute, second) = (second / 3600, second / 60 % 60, second % 60);
        writeln!(
            self.line,
            "{year}-{month:02}-{date:02}T{hour:02}:{minute:02}:{second:02},62.{wobble},45.{wobble},55.{wobble},44.5,21.{wobble},{sun},4.1{wobble},1"
        )
        .unwrap();
    }
}

impl Read for Rows {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let mut written = 0;
        while written < buffer.len() {
            if self.at == self.line.len() {
                if self.next == ROWS {
                    break;
                }
                self.advance();
            }
            let count = (self.line.len() - self.at).min(buffer.len() - written);
            buffer[written..written + count].copy_from_slice(&self.line[self.at..self.at + count]);
            self.at += count;
            written += count;
        }
        Ok(written)
    }
}

/// Making the rows takes a good part of the time.
#[divan::bench(sample_count = 3)]
fn three_million_rows(bencher: Bencher) {
    bencher.bench_local(|| -> Log { digest(Rows::new(), &Columns::default()).unwrap() });
}
