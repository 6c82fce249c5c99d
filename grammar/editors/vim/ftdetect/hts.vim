autocmd BufNewFile,BufRead *.hts setfiletype hts
