#compdef endband
# Completion of endband for zsh. The program itself is asked for all that there is to say.
_endband() {
  local program=${(Q)words[1]} line word
  local -a lines closed closed_shown open open_shown
  program=${program/#\~/$HOME}
  lines=("${(@f)$("$program" complete -- "${(@Q)words[2,CURRENT-1]}" "${(Q)PREFIX}" 2>/dev/null)}")
  for line in "${(@)lines[3,-1]}"; do
    word=${line%%$'\t'*}
    line=${line/$'\t'/  }
    if [[ $word == *[=.] ]]; then
      open+=("$word")
      open_shown+=("$line")
    else
      closed+=("$word")
      closed_shown+=("$line")
    fi
  done
  ((${#closed})) && compadd -V endband -l -d closed_shown -- "${closed[@]}"
  ((${#open})) && compadd -V endband -S '' -l -d open_shown -- "${open[@]}"
  [[ $PREFIX == --*=* && ${lines[1]} != words ]] && compset -P '*='
  case ${lines[1]} in
    files) _files ;;
    folders) _files -/ ;;
  esac
}
if [[ ${funcstack[1]} == _endband ]]; then
  _endband "$@"
else
  compdef _endband endband
fi
