# shellcheck shell=bash
# Completion of endband for bash. The program itself is asked for all that there is to say.
_endband() {
  local program=${1/#\~/$HOME} part before word plain=yes
  local -a lines
  COMPREPLY=()
  mapfile -t lines < <("$program" complete --line -- "${COMP_LINE:0:COMP_POINT}" 2>/dev/null)
  ((${#lines[@]} >= 2)) || return 0
  # Of "--kind=pap" readline replaces what stands behind the "=", and of a quoted word what stands in the quotes.
  part=${2//\\/}
  part=${part#[\"\']}
  before=''
  [[ ${lines[1]} == *"$part" ]] && before=${lines[1]%"$part"}
  for word in "${lines[@]:2}"; do
    word=${word%%$'\t'*}
    word=${word#"$before"}
    [[ $word == *[^a-zA-Z0-9_=.,/:+%-]* ]] && plain=no
    COMPREPLY+=("$word")
  done
  case ${lines[0]} in
    files) mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(compgen -f -- "$part") ;;
    folders) mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(compgen -d -- "$part") ;;
  esac
  # As file names they are quoted where they must be.
  if [[ ${lines[0]} != words || $plain == no ]]; then
    compopt -o filenames 2>/dev/null
  else
    compopt -o nosort 2>/dev/null
  fi
  if ((${#COMPREPLY[@]} == 1)) && [[ ${COMPREPLY[0]} == *[=.] ]]; then
    compopt -o nospace 2>/dev/null
  fi
  return 0
}
complete -F _endband endband
